"""Who may come in, what a page may load, what a form must carry, which files are given."""

from pathlib import Path

import pytest
from rooms import AT, FINAL, MARKUP, final, seal, send, sign
from starlette.testclient import TestClient

from hikite.archive import Archive
from hikite.web import Arrangement, reading_room
from hikite.web.pages.media import media_of

PAGES = (
    "/", "/search", "/search?q=hip+throw", "/numbers", "/signs", f"/recordings/{FINAL}",
    f"/recordings/{FINAL}/decisions", f"/recordings/{FINAL}/verse/3", "/names?q=uchi",
    "/static/room.css", "/nowhere",
)  # fmt: skip


# CSP Level 3, section 6: without 'unsafe-inline' nothing inline runs; a page names no other host.
@pytest.mark.parametrize("page", PAGES)
def test_every_answer_has_the_strict_policy(client: TestClient, page: str) -> None:
    answer = client.get(page)
    policy = dict(part.strip().split(" ", 1) for part in answer.headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert {policy[name] for name in policy if name.endswith("-src") and name != "default-src"} == {"'self'"}
    assert (policy["base-uri"], policy["frame-ancestors"]) == ("'none'", "'none'")
    assert answer.headers["x-content-type-options"] == "nosniff"
    if "html" in answer.headers["content-type"]:
        assert "http://" not in answer.text.replace("http://www.w3.org/2000/svg", "")
        assert "https://" not in answer.text
        assert not [word for word in ("<style", "style=", "onclick") if word in answer.text]


# A name of somebody else's that leads to this machine (DNS rebinding) is not answered.
@pytest.mark.parametrize(
    ("host", "code"),
    [
        ("127.0.0.1:8173", 200),
        ("localhost", 200),
        ("[::1]:8173", 200),
        ("evil.example", 421),
        ("127.0.0.1.evil.example", 421),
        ("192.168.1.4", 421),
        ("", 421),
        ("[::1", 421),
    ],
)
def test_only_its_own_names(client: TestClient, host: str, code: int) -> None:
    assert client.get("/", headers={"host": host}).status_code == code


@pytest.mark.parametrize(
    ("headers", "code"),
    [
        ({"origin": AT}, 303),
        ({}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "http://127.0.0.1:9999"}, 403),
        ({"origin": AT, "sec-fetch-site": "cross-site"}, 403),
        ({"origin": AT, "sec-fetch-site": "same-site"}, 403),
    ],
)
def test_writes_come_from_this_very_origin(client: TestClient, headers: dict[str, str], code: int) -> None:
    told = {"seal": seal(client), "name": "Odrun"}
    answer = client.post("/name", data=told, headers=headers, follow_redirects=False)
    assert answer.status_code == code


# The seal is this browser's: none, another browser's, or one without the cookie is refused.
def test_writes_carry_the_seal(archive: Path) -> None:
    app = reading_room(Arrangement(archive=archive))
    with TestClient(app, base_url=AT) as one, TestClient(app, base_url=AT) as other:
        foreign = seal(other)
        own = seal(one)
        for given in ({}, {"seal": ""}, {"seal": foreign}, {"seal": "é"}):
            answer = one.post("/name", data={**given, "name": "Odrun"}, headers={"origin": AT})
            assert answer.status_code == 403, given
        one.cookies.clear()
        answer = one.post("/name", data={"seal": own, "name": "Odrun"}, headers={"origin": AT})
        assert answer.status_code == 403


def test_cookies_go_nowhere_else(client: TestClient) -> None:
    told = client.get("/").headers["set-cookie"]
    assert "HttpOnly" in told
    assert "SameSite=Strict" in told
    made = send(client, "/name", name="Odrun").headers["set-cookie"]
    assert "HttpOnly" in made
    assert "SameSite=Strict" in made


# A link from elsewhere comes without the cookies; it must not take them from the pages that are open.
def test_a_link_from_elsewhere_takes_no_seat(client: TestClient) -> None:
    client.get("/")
    answer = client.get("/", headers={"sec-fetch-site": "cross-site", "cookie": ""})
    assert "set-cookie" not in answer.headers


def test_reading_only(archive: Path) -> None:
    archive.chmod(0o444)
    with TestClient(reading_room(Arrangement(archive=archive, read_only=True)), base_url=AT) as client:
        sign(client, "Odrun")
        page = client.get(f"/recordings/{FINAL}").text
        assert "for reading only" in page
        assert "/check/" not in page
        for path in (f"/recordings/{FINAL}/undo", f"/recordings/{FINAL}/verse/3", "/searches"):
            assert send(client, path).status_code == 403
    with Archive.open(archive) as opened:
        assert opened.db.execute("SELECT count(*) FROM decisions").fetchone() == (0,)


def test_a_token_is_asked_for_everywhere(archive: Path) -> None:
    made = Arrangement(archive=archive, address="0.0.0.0", token="a long secret", names=("mat.example",))
    with TestClient(reading_room(made), base_url=AT) as client:
        for page in PAGES:
            open_ = page.startswith("/static/")
            assert client.get(page).status_code == (200 if open_ else 401), page
        html = client.get("/", headers={"accept": "text/html"}, follow_redirects=False)
        assert (html.status_code, html.headers["location"]) == (303, "/enter")
        entrance = client.get("/enter").text
        told = {"seal": entrance.split('name="seal" value="')[1].split('"')[0]}
        for wrong in ("", "a long", "a long secret2"):
            answer = client.post("/enter", data={**told, "token": wrong}, headers={"origin": AT})
            assert answer.status_code == 403
            assert client.get("/").status_code == 401
        client.post("/enter", data={**told, "token": "a long secret"}, headers={"origin": AT})
        assert client.get("/").status_code == 200
        # Open to others, it answers to addresses and to the names that were given.
        assert client.get("/", headers={"host": "192.168.1.4"}).status_code == 200
        assert client.get("/", headers={"host": "mat.example"}).status_code == 200
        assert client.get("/", headers={"host": "evil.example"}).status_code == 421


# RFC 9110, 14.2: the part that was asked for, told as such; what cannot be is refused.
@pytest.mark.parametrize(
    ("wanted", "code", "told"),
    [
        ("bytes=0-99", 206, "bytes 0-99/1560044"),
        ("bytes=1560000-", 206, "bytes 1560000-1560043/1560044"),
        ("bytes=-44", 206, "bytes 1560000-1560043/1560044"),
        ("bytes=9999999-", 416, "bytes */1560044"),
    ],
)
def test_parts_of_the_recording(client: TestClient, wanted: str, code: int, told: str) -> None:
    answer = client.get(f"/media/{FINAL}", headers={"range": wanted})
    assert answer.status_code == code
    # Servers may write the unit of a refused range or not (RFC 9110, 14.4 asks for it).
    assert answer.headers["content-range"].removeprefix("bytes ") == told.removeprefix("bytes ")
    if code == 206:
        whole = client.get(f"/media/{FINAL}").content
        first, last = told.removeprefix("bytes ").split("/")[0].split("-")
        assert answer.content == whole[int(first) : int(last) + 1]
        assert answer.headers["content-type"] == "audio/wav"


# Only media files, only in the recording's own folder or one that was allowed, wherever links may lead.
def test_media_are_confined(archive: Path, tmp_path: Path) -> None:
    with Archive.open(archive) as opened:
        kept = opened.recording(FINAL)
    assert kept
    assert kept.path
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "other.wav").write_bytes(b"RIFF")
    (elsewhere / "secret.txt").write_text("secret")
    beside = Path(kept.path).with_name("link.wav")
    beside.unlink(missing_ok=True)
    beside.symlink_to(elsewhere / "other.wav")
    try:
        cases = {
            kept.media: True,
            str(elsewhere / "other.wav"): False,
            str(beside): False,
            str(Path(kept.path).parent / ".." / ".." / "other.wav"): False,
            kept.path: False,
            str(Path(kept.path).with_name("gone.wav")): False,
            None: False,
        }
        for media, given in cases.items():
            assert (media_of(kept.model_copy(update={"media": media})) is not None) is given, media
        allowed = kept.model_copy(update={"media": str(elsewhere / "other.wav")})
        assert media_of(allowed, (elsewhere,)) == (elsewhere / "other.wav").resolve()
        secret = kept.model_copy(update={"media": str(elsewhere / "secret.txt")})
        assert media_of(secret, (elsewhere,)) is None
    finally:
        beside.unlink()


@pytest.mark.parametrize(
    "path",
    ["/static/../apps.py", "/static/%2e%2e/apps.py", "/static//etc/passwd", "/media/99", "/media/..%2f1"],
)
def test_nothing_else_is_given(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


def test_markup_in_captions_is_text(client: TestClient) -> None:
    page = client.get(f"/recordings/{MARKUP}", params={"all": "1"}).text
    assert "<script>document" not in page
    assert "<img" not in page
    assert "<svg" not in page
    assert "&lt;script&gt;" in page
    assert "{{" in page
    assert " 49 " not in page


# What comes in the address or a name is text too.
@pytest.mark.parametrize("page", ["/search?q={}", "/?with={}", f"/recordings/{FINAL}/verse/3?words={{}}"])
def test_what_is_asked_is_text(client: TestClient, page: str) -> None:
    sign(client, "Odrun")
    answer = client.get(page.format("%22%3E%3Cscript%3Ealert(1)%3C/script%3E"))
    assert "<script>alert" not in answer.text
    assert "&lt;script&gt;" in answer.text


def test_a_name_is_text(client: TestClient) -> None:
    sign(client, "<b>Odrun</b>")
    assert "&lt;b&gt;Odrun&lt;/b&gt;" in client.get("/").text
    assert send(client, "/name", name="x" * 61).status_code == 400


@pytest.mark.parametrize(
    "to", ["//evil.example", "http://evil.example", "/\\evil.example", "javascript:1", ""]
)
def test_nobody_is_sent_elsewhere(client: TestClient, to: str) -> None:
    assert send(client, "/name", name="Odrun", to=to).headers["location"] == "/"


def test_too_much_is_not_taken(client: TestClient) -> None:
    assert send(client, "/name", name="x" * 70_000).status_code == 413
    assert final(client, FINAL) == "4–3"
