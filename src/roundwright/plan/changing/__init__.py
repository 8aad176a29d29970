"""Changes of a plan: what was asked, the restated problem, who is disturbed, the revisions."""
