"""What the tests do in a room: sign in, find notes, send forms with the seal of a page."""

import re

from starlette.testclient import TestClient

AT = "http://127.0.0.1:8173"
FINAL, MARKUP, PLAIN, WHOLE = 1, 2, 3, 4


def seal(client: TestClient) -> str:
    found = re.search(r'name="seal" value="(\w+)"', client.get("/").text)
    assert found
    return found[1]


def send(client: TestClient, path: str, **fields: str):
    """A form sent as a browser sends it, not followed."""
    told = {"seal": seal(client), **fields}
    return client.post(path, data=told, headers={"origin": AT}, follow_redirects=False)


def sign(client: TestClient, name: str) -> None:
    assert send(client, "/name", name=name).status_code == 303


def field(page: str, name: str) -> str:
    found = re.search(rf'name="{name}"[^>]*value="([^"]*)"', page)
    assert found, name
    return found[1]


def final(client: TestClient, recording: int = PLAIN, **asked: str) -> str:
    found = re.search(r'class="final">([^<]*)<', client.get(f"/recordings/{recording}", params=asked).text)
    assert found
    return found[1]
