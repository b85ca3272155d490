"""Tests of the screens, by real touches in a window that nobody sees."""
