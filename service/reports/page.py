"""Pages for people: one look for all of them, without scripts, to read and to print."""

from __future__ import annotations

from html import escape


def page(title: str, body: str) -> str:
    """A whole page of HTML that needs no other file; `body` is HTML already."""
    return _PAGE.replace("<!-- title -->", escape(title)).replace("<!-- body -->", body)


_PAGE = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Haulwright: <!-- title --></title>
<link rel="icon" href="/icon.svg">
<style>
body { font: 15px/1.45 sans-serif; max-width: 75em; margin: 2em auto; padding: 0 1em; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #999; padding: 0.3em 0.5em; text-align: left; vertical-align: top; }
th { background: #eee; }
tr:target { background: #ffd; }
code { overflow-wrap: anywhere; }
@media print {
  body { font-size: 9pt; margin: 0; max-width: none; }
  thead, tr { break-inside: avoid; }
}
</style>
</head>
<body>
<!-- body --></body>
</html>
"""
