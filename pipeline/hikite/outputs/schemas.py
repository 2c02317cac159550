"""The published JSON Schema of an entry and of a whole record."""

import json

from hikite.outputs.entries import SCHEMA_VERSION, BoutRecord, Entry

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def entry_schema() -> str:
    """The schema of one line of the JSON Lines output, as indented JSON."""
    return _schema(Entry, "entry")


def record_schema() -> str:
    """The schema of the JSON document of one recording, as indented JSON."""
    return _schema(BoutRecord, "record")


def _schema(model: type[Entry | BoutRecord], name: str) -> str:
    schema = model.model_json_schema(mode="serialization")
    head = {"$schema": DIALECT, "$id": f"urn:hikite:{name}:{SCHEMA_VERSION}"}
    return json.dumps(head | schema, indent=2, ensure_ascii=False) + "\n"
