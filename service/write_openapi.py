"""Writes the published description of the service: `python -m service.write_openapi`."""

import json
from pathlib import Path

from service.app import ROUTES
from service.http.openapi import openapi_document

PUBLISHED = Path(__file__).parents[1] / "api_schema" / "openapi.v1.json"


def published_text() -> str:
    """The description of the application's routes as it stands in the file."""
    return json.dumps(openapi_document(ROUTES), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    PUBLISHED.write_text(published_text(), encoding="utf-8")
