"""From readings to verdicts: draws of doubt, checks, findings, grades, safety notes."""
