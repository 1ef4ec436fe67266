"""Documents of medicine: elevation, fumes, appetite, waste of the body."""

from __future__ import annotations

from solver.rulebook.documents import Document

MEDICINE: tuple[Document, ...] = (
    Document(
        "altitude-consensus-2010",
        "Consensus Guidelines for the Prevention and Treatment of Acute Altitude Illness",
        "Wilderness Medical Society",
        2010,
        "quoted",
    ),
    Document(
        "altitude-charity",
        "Travel at High Altitude",
        "Medex",
        None,
    ),
    Document(
        "altitude-review-2017",
        "Hofmeyr et al., Acute high-altitude illness, S Afr Med J 107(7)",
        "South African Medical Association",
        2017,
    ),
    Document(
        "altitude-sheet-1",
        "Information Sheet 1 (web copy)",
        "UIAA Mountain Medical Centre",
        None,
    ),
    Document(
        "carbon-monoxide-tents",
        "Leigh-Smith, Carbon Monoxide Poisoning in Tents: A Review, Wilderness "
        "Environ Med 15:157-163",
        "Wilderness Medical Society",
        2004,
    ),
    Document(
        "camp-medicine-guide",
        "Expedition guide, carbon monoxide",
        "BaseCampMD",
        None,
    ),
    Document(
        "appetite-high",
        'Westerterp-Plantenga et al., Appetite at "high altitude" (chamber study), abstract',
        "journal not noted",
        None,
    ),
    Document(
        "faeces-review",
        "Rose et al., Crit Rev Environ Sci Technol 45:1827-1879, abstract",
        "Taylor & Francis",
        2015,
    ),
    Document(
        "travel-health-book",
        "CDC Yellow Book, altitude (unattributed copy)",
        "Centers for Disease Control and Prevention",
        None,
        "quoted",
    ),
)
