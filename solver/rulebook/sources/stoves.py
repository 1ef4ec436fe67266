"""Documents on stoves, fuel, and the energy of foods."""

from __future__ import annotations

from solver.rulebook.documents import Document

STOVES: tuple[Document, ...] = (
    Document(
        "traverse-planning",
        "Planning a Traverse III",
        "The High Route",
        None,
    ),
    Document(
        "gas-in-cold",
        "Gas in Extreme Cold (an enthusiast's)",
        "Adventures in Stoving",
        2011,
    ),
    Document(
        "backpacking-forum",
        "Thread on upright canisters (a forum)",
        "Backpacking.net",
        2014,
    ),
    Document(
        "backcountry-tips",
        "Pro Tips",
        "Wild Backcountry Gourmet",
        2010,
    ),
    Document(
        "stove-basics",
        "Stoves 101",
        "a stove maker",
        None,
    ),
    Document(
        "fuel-to-pack",
        "How much fuel should I pack",
        "Explore",
        None,
    ),
    Document(
        "hiking-manual",
        "Curtis, Complete Hiking and Camping Manual",
        "Collins",
        None,
    ),
    Document(
        "stove-safety",
        "Stove-safety sheet filed as 425 Maintenance",
        "publisher not noted",
        None,
    ),
    Document(
        "cold-riding",
        "How to contain the cold",
        "SnoWest",
        2014,
    ),
    Document(
        "food-table-28",
        "National Nutrient Database for Standard Reference, release 28",
        "US Department of Agriculture",
        2015,
        "quoted",
    ),
    Document(
        "food-table-legacy",
        "National Nutrient Database for Standard Reference, SR Legacy",
        "US Department of Agriculture",
        2018,
        "quoted",
    ),
)
