"""XML documents."""

import re
from xml.etree import ElementTree as Xml

XSI = "http://www.w3.org/2001/XMLSchema-instance"
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def add(parent: Xml.Element, name: str, text: str | None = None, **attributes: str) -> Xml.Element:
    """A new last child; characters that XML 1.0 (section 2.2) has no place for are left out."""
    child = Xml.SubElement(parent, name, {key: _plain(value) for key, value in attributes.items()})
    child.text = None if text is None else _plain(text)
    return child


def document(root: Xml.Element) -> str:
    """The whole document, indented, in UTF-8."""
    Xml.indent(root)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{Xml.tostring(root, encoding="unicode")}\n'


def _plain(text: str) -> str:
    return _NOT_XML.sub("", text)
