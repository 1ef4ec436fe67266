"""Handbooks and reports of mountain and polar journeys."""

from __future__ import annotations

from solver.rulebook.documents import Document

HANDBOOKS: tuple[Document, ...] = (
    Document(
        "mountaineering-textbook",
        "Mountaineering textbook, expedition chapter (web copy without title, "
        "taken as The Freedom of the Hills: title from memory)",
        "The Mountaineers",
        None,
    ),
    Document(
        "mountaineering-textbook-8",
        "Mountaineering: The Freedom of the Hills, 8th ed.",
        "The Mountaineers",
        None,
        "quoted",
    ),
    Document(
        "outdoor-leader",
        "Food for extended trips",
        "Outdoor Leader Online",
        None,
    ),
    Document(
        "peak-dispatches",
        "Dispatches from a high cold peak, to 2023",
        "publisher not noted",
        2023,
    ),
    Document(
        "sled-rigging",
        "Expedition Sled Rigging",
        "publisher not noted",
        2010,
    ),
    Document(
        "sled-log",
        "Prusik practice with sleds; Sleds",
        "a climbing team's web log",
        2015,
    ),
    Document(
        "sled-article",
        "Pull a Sled",
        "Backpacker",
        None,
    ),
    Document(
        "polar-manual",
        "Polar Expeditions Manual, 4th ed.",
        "RGS-IBG",
        2003,
    ),
    Document(
        "polar-food-fuel",
        "Chapple, Food and fuel",
        "publisher not noted",
        None,
    ),
    Document(
        "polar-essentials",
        "Exped Essentials",
        "publisher not noted",
        2014,
    ),
    Document(
        "polar-weight",
        "Hibbert, Worth the weight?",
        "publisher not noted",
        2012,
    ),
    Document(
        "polar-report-2012",
        "Expedition report, 1 January 2012",
        "ExploraPoles",
        2012,
    ),
    Document(
        "polar-stove",
        "Dupre, Stove & Fuel",
        "publisher not noted",
        2017,
    ),
    Document(
        "polar-daily-bags",
        "Preparing the daily food bags",
        "publisher not noted",
        2011,
    ),
    Document(
        "polar-food-packing",
        "Huston, Food packing",
        "publisher not noted",
        2013,
    ),
)
