"""Documents of authorities: land managers, aviation, armed forces."""

from __future__ import annotations

from solver.rulebook.documents import Document

AUTHORITIES: tuple[Document, ...] = (
    Document(
        "icefield-planning",
        "Kluane: Expedition Planning; Mountaineering hazards and safety",
        "Parks Canada",
        None,
    ),
    Document(
        "high-peak-waste",
        "Concessions report on human waste on one high peak",
        "US National Park Service",
        2023,
    ),
    Document(
        "unattended-property",
        "36 CFR 2.22, Property",
        "US federal regulations",
        None,
    ),
    Document(
        "youth-programmes",
        "Administrative Rule 37.98.1812",
        "State of Montana",
        2004,
    ),
    Document(
        "polar-field-manual",
        "Continental Field Manual",
        "US Antarctic Program, National Science Foundation",
        2016,
    ),
    Document(
        "polar-waste-annex",
        "Protocol on Environmental Protection to the Antarctic Treaty, Annex III",
        "Antarctic Treaty",
        None,
    ),
    Document(
        "aircraft-weight",
        "P-8740-05, Weight and Balance",
        "US Federal Aviation Administration",
        1995,
    ),
    Document(
        "aircraft-seats",
        "14 CFR 91.107",
        "US federal regulations",
        None,
    ),
    Document(
        "glacier-flights",
        "Flight Considerations",
        "Yukon Air",
        None,
    ),
    Document(
        "infantry-manual",
        "FM 3-21.8",
        "US Army",
        None,
    ),
    Document(
        "offence-manual",
        "ADP 3-90",
        "US Army",
        None,
        "quoted",
    ),
    Document(
        "combat-load",
        "Combat Load Report, citing Marshall 1950",
        "US Marine Corps Combat Development Command",
        2003,
    ),
    Document(
        "cold-manual",
        "TC 21-3",
        "US Army",
        1986,
    ),
    Document(
        "mountain-manual",
        "Mountain manual (web copy, taken as FM 3-97.61 ch. 2: title from memory)",
        "US Army",
        None,
    ),
    Document(
        "health-manual",
        "Force Health Protection, nutrition manual (web copy)",
        "US armed forces",
        None,
    ),
)
