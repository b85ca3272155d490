"""Every widget in every state."""
