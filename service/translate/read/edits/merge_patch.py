"""JSON merge patches (RFC 7396) on trees that remember where each part was written.

J. Hoffman and others, JSON Merge Patch, RFC 7396, October 2014, section 2: an object is merged
member by member, null takes a member out, and anything else, a list too, replaces what was there.
"""

from __future__ import annotations

from service.translate.read.edits.nodes import Node, grown
from service.translate.read.notes import pointer_to


def merged(target: Node | None, patch: object, origin: str) -> Node:
    """The target changed by a patch that was written at the origin; the target stays as it is.

    Parts of the target that the patch leaves alone are shared with it, so change neither.
    """
    if not isinstance(patch, dict):
        return grown(patch, origin)
    members = dict(target.value) if target and isinstance(target.value, dict) else {}
    where = target.origin if target and isinstance(target.value, dict) else origin
    for name, value in patch.items():
        if value is None:
            members.pop(name, None)
        else:
            members[name] = merged(members.get(name), value, origin + pointer_to(name))
    return Node(members, where)
