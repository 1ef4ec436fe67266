"""Claims that differ are told once for each thing."""

from solver.checker.queries.differences import Differences


def _add(differences, about, told, true, unit="g"):
    differences.add(about=about, unit=unit, claimed=told, true=true, words=about, where=())


def test_differences_about_one_thing_are_one_finding_with_the_largest():
    """Two claims about the rope differ by 2 g and 5 g: one finding of 5 g, of two entries."""
    differences = Differences("rule")
    _add(differences, "rope", 10, 12)
    _add(differences, "rope", 17, 12)
    _add(differences, "rope", 12, 12)
    (finding,) = differences.findings()
    assert (finding.rule_id, finding.amount, finding.unit) == ("rule", 5, "g")
    assert finding.message == "rope: the plan says 10 g, it is 12 g; 2 entries differ"


def test_another_thing_or_unit_is_another_finding():
    """Mass and volume of one thing are told apart, in the order met."""
    differences = Differences("rule")
    _add(differences, "rope", 1, 2)
    _add(differences, "rope", 1, 4, "mL")
    assert [(f.unit, f.amount) for f in differences.findings()] == [("g", 1), ("mL", 3)]
