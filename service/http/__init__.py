"""HTTP plumbing: negotiation, problem answers, request bodies, strict JSON, OpenAPI."""
