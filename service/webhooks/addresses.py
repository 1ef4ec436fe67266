"""Where a webhook may go: to addresses of the public internet, unless the settings allow any.

A caller chooses the address, and the service connects from inside its own network. So nothing that
is inside may be reached: not this machine, not its neighbours, not the metadata of a cloud.
"""

import re
from collections.abc import Awaitable, Callable
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address
from urllib.parse import SplitResult, urlsplit

Address = IPv4Address | IPv6Address
Resolver = Callable[[str, int], Awaitable[list[str]]]

LONGEST_URL = 2000
_LONGEST_NAME = 253
_LABEL = re.compile(r"[^.]{1,63}")
"""A part of a name, by its length (RFC 1035, section 2.3.4)."""
_NUMBER = re.compile(r"[0-9]+|0x[0-9a-f]*")
"""A last part that makes a host an IPv4 address, as the URL standard of WHATWG says it."""
_TRANSLATED = IPv6Network("64:ff9b::/96")
"""The prefix behind which translators put IPv4 addresses (RFC 6052, section 2.1)."""
_PROTOCOLS = (IPv4Network("192.0.0.0/24"), IPv4Network("192.88.99.0/24"))
"""Set aside for protocols (RFC 6890), and for metadata in one cloud; some Pythons say public."""


class AddressRefusedError(Exception):
    """The host leads somewhere that is not public."""


class NoAddressError(Exception):
    """The host leads nowhere."""


async def checked_address(host: str, port: int, *, any_address: bool, resolver: Resolver) -> str:
    """The address to connect to, resolved this once; refused if one of the host is not public.

    The connection must go to this address. A second look at the name may give another one.
    """
    try:
        found = await resolver(host, port)
    except (OSError, UnicodeError):
        found = []
    if not found:
        raise NoAddressError(host)
    if not any_address and not all(is_public(ip_address(text)) for text in found):
        raise AddressRefusedError(host)
    return found[0]


def is_public(address: Address) -> bool:
    """Whether an address, and every other one that it carries inside, is of the public internet."""
    return all(
        one.is_global
        and not one.is_multicast
        and not one.is_reserved
        and not getattr(one, "is_site_local", False)
        and not any(one in network for network in _PROTOCOLS)
        for one in (*_inside(address), *_outside(address))
    )


def _inside(address: Address) -> tuple[Address, ...]:
    """The IPv4 addresses that an IPv6 address leads on to: mapped, translated or tunnelled."""
    if isinstance(address, IPv4Address):
        return ()
    carried = [address.ipv4_mapped, address.sixtofour, *(address.teredo or ())]
    if address in _TRANSLATED:
        carried.append(IPv4Address(int(address) & 0xFFFF_FFFF))
    return tuple(one for one in carried if one is not None)


def _outside(address: Address) -> tuple[Address, ...]:
    """The address itself, unless it is only another way to write one of IPv4."""
    carrier = isinstance(address, IPv6Address) and (
        address.ipv4_mapped is not None or address in _TRANSLATED
    )
    return () if carrier else (address,)


def fault_of(url: str, *, any_address: bool) -> str | None:
    """What is wrong with an address that a caller gave, in one sentence; None for nothing."""
    parts = _split(url)
    schemes = ("https", "http") if any_address else ("https",)
    if parts is None or not parts.hostname or len(url) > LONGEST_URL:
        return "Write an address with a host, such as https://trips.example/hooks."
    if parts.scheme not in schemes:
        return f"The address must begin with {' or '.join(f'{one}://' for one in schemes)}."
    if parts.username is not None or parts.password is not None or parts.fragment:
        return "The address must have no user, no password and no part after #."
    return _fault_of_host(parts.hostname, any_address=any_address)


def _fault_of_host(host: str, *, any_address: bool) -> str | None:
    """What can be said of a host without asking anybody for its address."""
    inside = "The host must be on the public internet."
    try:
        return None if is_public(ip_address(host)) or any_address else inside
    except ValueError:
        pass
    name = host.removesuffix(".")
    labels = name.split(".")
    if len(name) > _LONGEST_NAME or not all(_LABEL.fullmatch(label) for label in labels):
        return "The host must have 1 to 63 letters between its dots, and at most 253 in all."
    if _NUMBER.fullmatch(labels[-1]):
        return "The host must be a name, or four numbers up to 255 as in 203.0.113.7."
    return inside if not any_address and (len(labels) == 1 or labels[-1] == "localhost") else None


def _split(url: str) -> SplitResult | None:
    """The parts of an address; None where it is none."""
    if not url.isascii() or not url.isprintable() or " " in url or "\\" in url:
        return None
    try:
        parts = urlsplit(url)
        return parts if parts.port != 0 else None
    except ValueError:
        return None
