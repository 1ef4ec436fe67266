"""A JSON document as a tree in which every part remembers where it was written.

An edit moves, changes and takes out parts. Whatever is later said of the edited document can then
be said of the place that the caller wrote.
"""

from __future__ import annotations

from dataclasses import dataclass

from service.translate.read.notes import pointer_to

Scalar = str | int | float | bool | None


@dataclass(slots=True, eq=False)
class Node:
    """One part of a document, with the JSON Pointer of the place where it was written."""

    value: Scalar | list[Node] | dict[str, Node]
    origin: str


def grown(document: object, origin: str = "") -> Node:
    """The tree of a document that was written at the origin; it shares nothing with it."""
    if isinstance(document, dict):
        members = {
            str(name): grown(part, origin + pointer_to(name)) for name, part in document.items()
        }
        return Node(members, origin)
    if isinstance(document, list):
        return Node(
            [grown(part, origin + pointer_to(n)) for n, part in enumerate(document)], origin
        )
    if document is None or isinstance(document, str | int | float):
        return Node(document, origin)
    raise TypeError(f"no JSON: {type(document).__name__}")


def plain(node: Node) -> object:
    """The document of a tree."""
    if isinstance(node.value, dict):
        return {name: plain(part) for name, part in node.value.items()}
    if isinstance(node.value, list):
        return [plain(part) for part in node.value]
    return node.value


def origin_of(root: Node, pointer: str) -> str:
    """Where the part at a pointer was written.

    Of a part that is missing, it is where the nearest part around it was written, and the rest of
    the way.
    """
    here = root
    steps = pointer.split("/")[1:]
    for number, step in enumerate(steps):
        below = _part(here, _unescaped(step))
        if below is None:
            return here.origin + "".join(f"/{rest}" for rest in steps[number:])
        here = below
    return here.origin


def at_pointer(root: Node, pointer: str) -> Node | None:
    """The part at a pointer; None where there is none."""
    here: Node | None = root
    for step in pointer.split("/")[1:]:
        here = None if here is None else _part(here, _unescaped(step))
    return here


def _unescaped(step: str) -> str:
    return step.replace("~1", "/").replace("~0", "~")


def _part(node: Node, step: str) -> Node | None:
    if isinstance(node.value, dict):
        return node.value.get(step)
    if isinstance(node.value, list) and step.isascii() and step.isdigit():
        number = int(step) if len(step) <= len(str(len(node.value))) else len(node.value)
        return node.value[number] if number < len(node.value) else None
    return None


def member(node: Node, name: str) -> Node | None:
    """A member of an object; None where there is none, or where the part is no object."""
    return node.value.get(name) if isinstance(node.value, dict) else None


def said(node: Node, name: str) -> Scalar:
    """The text, number or flag that a member says; None where it says nothing of the kind."""
    part = member(node, name)
    return None if part is None or isinstance(part.value, list | dict) else part.value


def entries(node: Node, *way: str) -> list[Node]:
    """The entries of the list at the end of a way of members, as a new list, or none."""
    here: Node | None = node
    for name in way:
        here = None if here is None else member(here, name)
    return list(here.value) if here is not None and isinstance(here.value, list) else []


def listed(node: Node, name: str, origin: str) -> list[Node]:
    """The list that is a member, to change in place; made where it is missing, by the origin."""
    holder = node.value if isinstance(node.value, dict) else {}
    part = holder.get(name)
    if part is None or not isinstance(part.value, list):
        part = holder[name] = Node([], origin)
    return part.value if isinstance(part.value, list) else []


def keep(node: Node, name: str, kept: list[Node]) -> None:
    """Leave these entries only in the list that is a member."""
    part = member(node, name)
    if part is not None and isinstance(part.value, list):
        part.value = kept
