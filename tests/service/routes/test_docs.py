"""The pages for people: they stand on their own, with an icon of ours."""

import re
import xml.etree.ElementTree as ET

from service.routes import docs


def test_the_pages_load_nothing_from_elsewhere(shared_client):
    """/docs and /redoc name no other host, and each script and style they name is served."""
    for page in ("/docs", "/redoc"):
        html = shared_client.get(page).text
        assets = re.findall(r'(?:src|href)="([^"]*)"', html)
        assert any(asset.endswith(".js") for asset in assets)
        for asset in assets:
            assert asset.startswith("/docs-assets/") or asset == "/icon.svg"
            assert shared_client.get(asset).status_code == 200
        assert "://" not in html


def test_every_page_shows_our_icon(shared_client):
    """/docs, /redoc and the rules name one icon, which is a picture served from here."""
    for page in ("/docs", "/redoc", "/docs/rules"):
        assert re.findall(
            r'rel="(?:shortcut )?icon" href="([^"]*)"', shared_client.get(page).text
        ) == ["/icon.svg"], page
    icon = shared_client.get("/icon.svg")
    assert icon.headers["content-type"] == "image/svg+xml"
    assert ET.fromstring(icon.content).tag.endswith("svg")  # noqa: S314 - our own file
    assert b"href" not in icon.content


def test_the_pages_are_no_part_of_the_api():
    """The description lists the API alone."""
    assert docs.router.include_in_schema is False


def test_the_description_is_written_once(client, monkeypatch):
    """Whoever asks for it, with a key or without, costs no more than to send it."""
    written = []

    class Counted(docs.JSONResponse):
        """Counts what is written."""

        def render(self, content):
            """Write, and count."""
            written.append(content)
            return super().render(content)

    monkeypatch.setattr(docs, "JSONResponse", Counted)
    answers = [client.get("/openapi.json") for _ in range(3)]
    assert len(written) == 1
    assert {answer.headers["content-type"] for answer in answers} == {"application/json"}
    assert [answer.json() for answer in answers] == [client.app.openapi()] * 3
