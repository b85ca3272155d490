"""The newest thing measured on the site wins over the plan and is named."""
