"""The two lowest margins of a joint, found without working the rest, against every check worked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import surfacecheck
from surfacecheck.checks import factors_of, find_stack, joint_checks, joint_drafts, lowest_two, row_joint, row_kept

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def demo():
    return surfacecheck.assess(surfacecheck.read(DATA / "rudder.toml"))


def stack_of(joint, variants, rng):
    """Load, wrinkling and edges of a joint, all different in every variant; some loads are nothing."""
    share = rng.uniform(0.2, 20.0, (variants, 1, 1)) * rng.choice([0.0, 1.0, 1.0, 1.0], (variants, 1, 1))
    pull = joint.tension * rng.uniform(0.0, 30.0, (variants, 1, 1))
    edges = rng.uniform(0.005, 0.012, variants)
    layers = tuple(replace(one, load=one.load * share, edge=replace(one.edge, si=edges)) for one in joint.layers)
    wrinkle = None if joint.wrinkle is None else joint.wrinkle * rng.uniform(0.0, 30.0, (variants, 1, 1))
    pitch = rng.uniform(0.006, 0.05, (variants, 1, 1)) if joint.pitch is not None else None
    return replace(joint, shear=joint.shear * share, tension=pull, layers=layers, wrinkle=wrinkle, pitch=pitch)


ROWS = ("left_skin_to_spar", "left_skin_to_ribs", "trailing_edge", "doubler_to_spar")


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1), st.sampled_from(ROWS), st.sampled_from(["small", "large"]))
def test_bit_for_bit_the_two_lowest_of_all_checks(demo, seed, name, kind):
    load = next(one for one in demo.rows if one.row.name == name)
    rivet, variants = demo.surface.rivets[kind], 7
    joint = stack_of(row_joint(demo.surface, load, rivet, row_kept(load)), variants, np.random.default_rng(seed))
    factors = factors_of(demo.surface, rivet)
    drafts = joint_drafts(demo.surface, joint, factors)
    found = lowest_two(drafts, joint)
    whole = find_stack(list(joint_checks(demo.surface, joint, factors)), variants)
    margins = np.where(np.isnan(whole.margin), np.inf, whole.margin)
    expected = np.sort(margins, axis=0)[:2]
    assert np.array_equal(found.margin, expected)
    for place in (0, 1):
        there = found.draft[place] >= 0
        own = margins[np.where(there, found.draft[place], 0), np.arange(variants)]
        assert np.array_equal(own[there], expected[place][there])
    first = np.where(found.draft[0] >= 0, found.draft[0], 0)
    outside = [bool(whole.finding(int(m), v).outcome.startswith("outside")) for v, m in enumerate(first)]
    assert [bool(one) for one in found.outside[found.draft[0] >= 0]] == list(np.array(outside)[found.draft[0] >= 0])


def test_without_a_single_strength_there_is_none(demo):
    load = next(one for one in demo.rows if one.row.name == "ribs_to_spar")
    rivet = demo.surface.rivets["small"]
    joint = replace(row_joint(demo.surface, load, rivet, row_kept(load)), layers=())
    joint = replace(joint, shear=joint.shear[None], tension=joint.tension[None])
    found = lowest_two(joint_drafts(demo.surface, joint, factors_of(demo.surface, rivet)), joint)
    assert np.isinf(found.margin).all()
    assert (found.draft == -1).all()
