"""The wire and only the wire: what a request and an answer look like in JSON."""
