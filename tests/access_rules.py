"""What a checker of access for all finds on an open page."""

from tests.fresh_python import ROOT
from tests.machine import need

AXE = ROOT / "scenes" / "page" / "node_modules" / "axe-core" / "axe.min.js"


def keeps_the_rules(page):
    """Check that nothing serious or critical is found, and little else."""
    need(AXE.exists(), "axe-core (npm --prefix scenes/page ci)")
    page.tab.evaluate(AXE.read_text("utf-8"))
    found = page.tab.evaluate("axe.run(document, {resultTypes: ['violations']})")
    grave = [
        (rule["id"], node["target"], node.get("failureSummary", "")[:200])
        for rule in found["violations"]
        if rule["impact"] in ("serious", "critical")
        for node in rule["nodes"]
    ]
    assert grave == []
    assert len(found["violations"]) < 3
