"""The chances of a stress test, read: places must be of the route, weather must be possible."""

import pytest

from service.errors import RequestFaults
from service.translate.read.stress import read_blows, slow_legs, storm_chances
from tests.outlook.test_policies import PROBLEM


def _storm(**storm: object) -> dict[str, object]:
    return {"odds": {"storms": [{"place": "camp", "share": 0.2, **storm}]}}


def test_without_a_mean_length_days_are_independent():
    """A storm of share s then lasts 1 / (1 - s) days on average, whatever came before."""
    asked = read_blows(_storm(), {"camp"})
    assert asked.odds is not None
    chance = storm_chances(asked.odds)["camp"]
    assert chance.mean_days == pytest.approx(1 / 0.8)
    assert chance.begins == pytest.approx(0.2)


def _more(**odds: object) -> dict[str, object]:
    return {"odds": {"storms": [{"place": "camp", "share": 0}], **odds}}


def test_slow_legs_are_found_in_either_direction():
    """The chance stands at the leg between the two places."""
    slow = [{"from": "top", "to": "camp", "chance": 0.2}]
    asked = read_blows(_more(slow=slow), {"camp"}, {frozenset({"camp", "top"})})
    assert asked.odds is not None
    assert slow_legs(asked.odds, PROBLEM.route) == {"b": 0.2}


@pytest.mark.parametrize(
    ("document", "code", "pointer"),
    [
        (_storm(place="moon"), "unknown_id", "/odds/storms/0/place"),
        (_more(spoilt=[{"place": "moon", "chance": 0.1}]), "unknown_id", "/odds/spoilt/0/place"),
        (_more(slow=[{"from": "camp", "to": "x", "chance": 0.1}]), "unknown_id", "/odds/slow/0"),
        (
            _more(slow=[{"from": "camp", "to": "top", "chance": 1}]),
            "too_large",
            "/odds/slow/0/chance",
        ),
        (_storm(share=0.9, mean_days=2), "out_of_range", "/odds/storms/0/mean_days"),
        ({"storm_nights": []}, "too_few", "/storm_nights"),
    ],
)
def test_a_fault_has_its_code_and_place(document, code, pointer):
    """What cannot be is refused before anything is stored."""
    with pytest.raises(RequestFaults) as refused:
        read_blows(document, {"camp"})
    assert (refused.value.faults[0].code, refused.value.faults[0].pointer) == (code, pointer)
