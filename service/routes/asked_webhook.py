"""Where a request wants its webhook to go, as far as this service sends any."""

import json
import logging
from collections.abc import Mapping

from service.errors import Fault, RequestFaults
from service.settings import Settings
from service.webhooks.addresses import fault_of
from service.written_document import WrittenDocument

_MEMBER = b'"webhook_url"'
_OFF = "This service sends no webhooks. Leave this out, or ask those who run it to switch them on."

logger = logging.getLogger(__name__)


def asked_webhook(
    settings: Settings, document: Mapping[str, object] | WrittenDocument
) -> str | None:
    """The address in a request that a desk has read, None for none; RequestFaults if unusable."""
    request = document
    if isinstance(request, WrittenDocument):
        if _MEMBER not in request.text:
            return None
        request = json.loads(request.text)
    faults = webhook_faults(settings, request)
    if faults:
        raise RequestFaults(faults)
    url = request.get("webhook_url")
    return url if isinstance(url, str) else None


def kept_webhook(
    settings: Settings, stored_request: Mapping[str, object], plan_id: str
) -> str | None:
    """The address in the request of a stored plan; None, and a line in the log, if unusable now.

    Whoever asks for a re-plan cannot mend that request, and must not be kept from a plan by it.
    """
    faults = webhook_faults(settings, stored_request)
    if faults:
        logger.warning("re-plan of %s: no webhook, %s", plan_id, faults[0].code)
        return None
    return asked_webhook(settings, stored_request)


def webhook_faults(settings: Settings, request: object) -> tuple[Fault, ...]:
    """What is wrong with the address in a request, beside what a desk finds in the rest."""
    url = request.get("webhook_url") if isinstance(request, dict) else None
    if url is None:
        return ()
    if not settings.webhook_secrets():
        return (Fault("/webhook_url", "webhooks_off", _OFF),)
    if not isinstance(url, str):
        return ()
    words = fault_of(url, any_address=settings.webhook_targets == "any")
    return () if words is None else (Fault("/webhook_url", "webhook_url_refused", words),)


def with_webhook_faults(
    settings: Settings, request: object, faults: tuple[Fault, ...]
) -> tuple[Fault, ...]:
    """Faults that were found without the settings, and those of the address.

    An address that cannot be read is not told as refused, too. One that nobody would send to is
    told as that whatever it is like.
    """
    places = {fault.pointer for fault in faults}
    of_the_address = webhook_faults(settings, request)
    return (
        *faults,
        *(f for f in of_the_address if f.code == "webhooks_off" or f.pointer not in places),
    )
