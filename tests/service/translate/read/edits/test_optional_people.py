"""Choices of optional people: which there are, what they are called, and what they do to a tree."""

from api_schema.comparison import OptionalPeopleRequest
from service.translate.read.edits.nodes import grown, plain
from service.translate.read.edits.optional_people import OptionalPeople, read_optional, take_along

BASE = {"roster": [{"person_id": "lead"}, {"person_id": "a"}, {"person_id": "b"}]}
PEOPLE = {"c": grown({"person_id": "c"}, "/people/0")}


def read(**asked: object) -> object:
    """What is asked of the base, with one more person who could come."""
    request = OptionalPeopleRequest.model_validate(asked)
    return read_optional(request, grown(BASE, "/base"), PEOPLE, others=0)


def test_choices_have_the_fewest_people_first():
    """One or two of three people are six choices."""
    optional = read(person_ids=["a", "b", "c"], least=1, most=2)
    assert isinstance(optional, OptionalPeople)
    choices = list(optional.choices())
    assert choices == [("a",), ("b",), ("c",), ("a", "b"), ("a", "c"), ("b", "c")]
    assert [optional.name(one) for one in choices[2:4]] == ["with c", "without c"]


def test_a_choice_leaves_people_at_home_and_brings_others():
    """The tree is a request again; who stays and who comes point to where each was written."""
    optional = read(person_ids=["a", "b", "c"])
    assert isinstance(optional, OptionalPeople)
    root = grown(BASE, "/base")
    assert take_along(root, optional, ("b", "c"), PEOPLE) == ("roster 3 -> 3",)
    assert plain(root) == {"roster": [*BASE["roster"], {"person_id": "c"}], "without": ["a"]}
    assert root.value["without"].value[0].origin == "/optional_people/person_ids/0"
    assert root.value["roster"].value[3].origin == "/people/0"


def test_who_is_taken_off_already_cannot_be_chosen():
    """A person in the base's `without` does not come, and is no choice."""
    base = grown(BASE | {"without": ["a"]}, "/base")
    asked = OptionalPeopleRequest(person_ids=["a"])
    (fault,) = read_optional(asked, base, {}, others=0)
    assert (fault.pointer, fault.code) == ("/optional_people/person_ids/0", "unknown_id")


def test_a_name_of_nobody_is_told_with_the_one_that_may_be_meant():
    """A mistyped person is asked back with the nearest of roster and list."""
    (fault,) = read(person_ids=["leda"])
    assert fault.detail.startswith("There is no person leda. Did you mean lead? Known are: ")


def test_a_comparison_has_at_most_fifty_variants_in_all():
    """Five people are 32 choices: with 18 other variants they fit, with 19 they do not."""
    base = grown({"roster": [{"person_id": f"p{n}"} for n in range(6)]}, "/base")
    asked = OptionalPeopleRequest(person_ids=[f"p{n}" for n in range(5)])
    assert isinstance(read_optional(asked, base, {}, others=18), OptionalPeople)
    (fault,) = read_optional(asked, base, {}, others=19)
    assert fault.code == "too_many"
    assert "32 choices and 19 variants" in fault.detail
