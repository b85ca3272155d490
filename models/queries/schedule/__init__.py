"""Progress and forecast; rates rest on days worked; the unknown is stated, not guessed."""
