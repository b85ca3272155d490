"""List of the pages, and which of them have a tab."""

from __future__ import annotations

from crewapp.words.translate import say

TABS = ("today", "pass", "grade", "loads", "day", "flags")
PLACES = {
    "today": "crewapp.pages.today.page:TodayPage",
    "pass": "crewapp.pages.passes.page:PassPage",
    "grade": "crewapp.pages.grade.page:GradePage",
    "loads": "crewapp.pages.loads.page:LoadsPage",
    "day": "crewapp.pages.day.page:DayPage",
    "flags": "crewapp.pages.flags.page:FlagsPage",
    "plan": "crewapp.pages.plan.page:PlanPage",
    "built": "crewapp.pages.plan.asbuilt.page:AsBuiltPage",
    "after": "crewapp.pages.after_rain.page:AfterRainPage",
    "jobs": "crewapp.pages.jobs.page:JobsPage",
    "sync": "crewapp.pages.exchange.page:ExchangePage",
    "settings": "crewapp.pages.settings.page:SettingsPage",
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
