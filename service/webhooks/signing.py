"""Signatures of webhooks, by which a receiver knows that the service sent them.

The form is that of the open specification "Standard Webhooks": HMAC-SHA-256 over the id, the time
and the body. Each tenant has a secret of its own, which is made from the secret of the settings.
"""

import base64
import hashlib
import hmac

_PREFIX = "whsec_"


def tenant_secret(service_secret: str, tenant_id: str) -> str:
    """The secret of a tenant, as its receiver needs it."""
    made = hmac.digest(service_secret.encode(), f"webhooks of {tenant_id}".encode(), hashlib.sha256)
    return _PREFIX + base64.b64encode(made).decode()


def signature(secret: str, *, webhook_id: str, sent_at_s: int, body: bytes) -> str:
    """The signature of a body that is sent at a time [s since 1970-01-01 UTC]."""
    key = base64.b64decode(secret.removeprefix(_PREFIX))
    signed = f"{webhook_id}.{sent_at_s}.".encode() + body
    return "v1," + base64.b64encode(hmac.digest(key, signed, hashlib.sha256)).decode()


def signed_headers(
    service_secrets: tuple[str, ...],
    *,
    tenant_id: str,
    webhook_id: str,
    sent_at_s: int,
    body: bytes,
) -> dict[str, str]:
    """The headers of a webhook, with one signature for each secret that is in use."""
    signatures = [
        signature(
            tenant_secret(secret, tenant_id), webhook_id=webhook_id, sent_at_s=sent_at_s, body=body
        )
        for secret in service_secrets
    ]
    return {
        "webhook-id": webhook_id,
        "webhook-timestamp": str(sent_at_s),
        "webhook-signature": " ".join(signatures),
    }
