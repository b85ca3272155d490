"""Which pages there are, and which of them have a tab."""

from __future__ import annotations

from crewapp.wording import say

TABS = ("today", "pass", "grade", "loads", "day", "flags")
PLACES = {
    "today": "crewapp.screens.today:TodayPage",
    "pass": "crewapp.screens.slit_pass:PassPage",
    "grade": "crewapp.screens.grade:GradePage",
    "loads": "crewapp.screens.loads:LoadsPage",
    "day": "crewapp.screens.day:DayPage",
    "flags": "crewapp.screens.flags:FlagsPage",
    "plan": "crewapp.screens.plan:PlanPage",
    "built": "crewapp.screens.built:BuiltPage",
    "after": "crewapp.screens.after:AfterPage",
    "jobs": "crewapp.screens.jobs:JobsPage",
    "sync": "crewapp.screens.sync:SyncPage",
    "settings": "crewapp.screens.settings:SettingsPage",
}


def tab_words() -> dict[str, str]:
    """Words on the tabs, in the language set."""
    return {
        "today": say("Today"),
        "pass": say("Pass"),
        "grade": say("Grade"),
        "loads": say("Loads"),
        "day": say("Day"),
        "flags": say("Flags"),
    }
