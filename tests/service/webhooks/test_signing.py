"""Signatures of webhooks, worked out a second time as a receiver would."""

import base64
import hashlib
import hmac

from service.webhooks.signing import signed_headers, tenant_secret

OLD, NEW = "a" * 32, "b" * 32


def test_a_receiver_can_check_each_signature():
    """Each is the HMAC of id, time and body under the tenant's secret for one secret in use."""
    body = b'{"type": "plan.done"}'
    headers = signed_headers(
        (OLD, NEW), tenant_id="agency", webhook_id="webhook_1", sent_at_s=1_800_000_000, body=body
    )
    assert headers["webhook-id"] == "webhook_1"
    given = headers["webhook-signature"].split(" ")
    for secret, signature in zip((OLD, NEW), given, strict=True):
        key = base64.b64decode(tenant_secret(secret, "agency").split("_")[1])
        signed = b"webhook_1.1800000000." + body
        version, _, code = signature.partition(",")
        assert version == "v1"
        assert base64.b64decode(code) == hmac.new(key, signed, hashlib.sha256).digest()


def test_each_tenant_has_a_secret_of_its_own():
    """The secret of one tenant tells nothing of another's, and changes with the service's."""
    made = {tenant_secret(s, t) for s in (OLD, NEW) for t in ("a", "b")}
    assert len(made) == 4
    assert not any(OLD in secret or NEW in secret for secret in made)
