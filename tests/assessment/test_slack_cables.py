"""A rigging pull that relieves a rivet is not trusted to grow with the load: the cables are also taken as slack."""

import pytest

import surfacecheck

PULL = 'based_on = "rudder.toml"\ntitle = "pull"\ncontrols.rigging_pull = "{}"\n'
STRONG = (("rivet.small.shear", "750 N"), ("rivet.large.shear", "1200 N"), ("rivet.large.pull", "1800 N"))


@pytest.fixture(scope="module")
def pulled(request):
    text = "".join(f'{key} = "{value}"\n' for key, value in STRONG)
    folder = request.config.rootpath / "data"

    def one(pull):
        return surfacecheck.assess(surfacecheck.read_text(PULL.format(pull) + text, folder=folder))

    return {pull: one(pull) for pull in ("none", "120 N", "300 N", "1000 N")}


def fittings(assessment):
    """Margins of brackets, pins and horn, by place and mode: the lowest of all spots."""
    lowest = {}
    for one in assessment.margins:
        if one.check.place.startswith(("hinge", "horn")) and one.margin is not None:
            key = one.check.place, one.check.mode
            lowest[key] = min(one.margin, lowest.get(key, one.margin))
    return lowest


def test_no_pull_makes_a_fitting_stronger(pulled):
    none = fittings(pulled["none"])
    for pull in ("120 N", "300 N", "1000 N"):
        with_pull = fittings(pulled[pull])
        assert with_pull.keys() == none.keys()
        assert all(with_pull[key] <= none[key] * (1.0 + 1e-9) for key in none)


def test_the_margin_is_not_above_that_of_a_pull_that_does_not_grow(pulled):
    """FS (1 + m) L - R = S, the relief R of the rigging pull taken once: what is worked lies on either side."""
    case = "along the hinge line, 24 g, up, taken by bottom"
    loads = {}
    for pull in ("none", "300 N"):
        one = pulled[pull]
        bracket = next(load for load in one.brackets if load.hinge.name == "bottom")
        loads[pull] = bracket.tension[one.case_titles.index(case)].max()
    relief = loads["none"] - loads["300 N"]
    assert relief > 0.5 * loads["none"]
    found = pulled["300 N"].find("hinge.bottom.bracket.rivet-3:rivet-pull")
    assert found.case == f"{case}, cables as if slack"
    strength = found.required * (1.0 + found.margin)
    factor = found.required / loads["none"]
    exact = (strength + relief) / (factor * loads["none"]) - 1.0
    assert found.margin < exact < strength / (factor * loads["300 N"]) - 1.0


def test_limit_loads_are_those_with_the_pull(pulled):
    assert not any("slack" in title for title in pulled["300 N"].case_titles)
    assert not any("slack" in pin.fore_aft.case for pin in pulled["300 N"].pins)
    assert any("slack" in title for title in pulled["300 N"].fittings.cases)
    assert not any("slack" in title for title in pulled["none"].fittings.cases)
