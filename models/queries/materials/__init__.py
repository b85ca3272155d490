"""Properties of materials; the newest measurement on the site wins over the plan, and is named."""
