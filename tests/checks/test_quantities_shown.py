"""Every letter of every check can be shown, on surfaces that call the rarer checks too."""

import pytest

import surfacecheck
from surfacecheck.assessment import finding_sentence, show_working

CHANGES = {
    "no rib behind a bracket": 'hinge.middle.rib_behind = "no"',
    "no rib at the horn": 'sheet.ribs.up = ["60 mm", "325 mm", "560 mm", "785 mm", "1010 mm", "1100 mm"]\n'
    'sheet.ribs.flanges_point = ["up", "up", "up", "up", "up", "down"]',
    "a lip": 'sheet.spar.lip = "8 mm"',
    "a hole in the web": 'sheet.spar.holes = [{ up = "300 mm", across = "25 mm" }]',
    "pins off line": 'hinge.middle.out_of_line = "0.8 mm left"',
    "no nose skin": 'sheet.nose_skin.thickness = "none"',
}


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("change", CHANGES)
def test_every_finding_shows_itself(change, system, request):
    text = f'based_on = "rudder.toml"\ntitle = "{change}"\n{CHANGES[change]}\n'
    assessment = surfacecheck.assess(surfacecheck.read_text(text, folder=request.config.rootpath / "data"))
    for finding in assessment.findings:
        assert finding_sentence(finding, assessment, system)
        assert show_working(finding, assessment, system)
