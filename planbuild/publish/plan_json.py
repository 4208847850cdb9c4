"""plan.json: every fact of the plan as data for other programs and for tests.  Lengths in mm."""
def plan_json(facts, findings, plan_set): return b""
