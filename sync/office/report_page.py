"""The report as one page for a browser: nothing is fetched, nothing runs, every text escaped."""

from __future__ import annotations

from collections.abc import Sequence
from string import Template
from typing import Final

from models.counted import CountedNoun
from models.units import PL_PER, VolumeUnit
from models.units.spec import FOOT_NM, METRE_NM
from sync.office.figures.quality import DEPTH_PROBE, Quality
from sync.office.markup import Markup, document, join_markup, meta, style, tag
from sync.office.plots import INK, Series, columns, rows
from sync.office.report import OfficeReport, Production
from sync.office.report_tables import (
    QUALITY_NOTE,
    Table,
    caveats,
    flag_counts,
    flag_table,
    quality_table,
    sand_table,
    span_text,
    work_table,
)
from sync.papers.wording.safe_text import single_line

_FLAGS_MOST: Final = 200
_BARS_MOST: Final = 30
_UL_PER_YD3, _UL_PER_M3 = (PL_PER[unit] / 10**6 for unit in (VolumeUnit.YD3, VolumeUnit.M3))

# Black on white throughout (21:1); the greys of lines carry nothing by themselves.
_RULES = Template("""
body{font:15px/1.45 sans-serif;color:$ink;background:#fff;max-width:1080px;margin:0 auto;
padding:20px}
h1{font-size:26px;margin:0}h2{font-size:19px;margin:30px 0 8px}p{margin:6px 0}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:bold;padding:4px 0}
th,td{border-bottom:1px solid $edge;padding:4px 8px;text-align:right;vertical-align:top}
th:first-child,td:first-child,table.words th,table.words td{text-align:left}
thead th{border-bottom:2px solid $ink}
table{margin:0 0 20px}td{white-space:nowrap}
td:first-child,table.words td{white-space:normal;overflow-wrap:anywhere}
table.words td:nth-child(2){white-space:nowrap}
.plots{display:grid;grid-template-columns:repeat(auto-fit,minmax(460px,1fr));gap:18px;
align-items:start;margin-top:14px}
figure{margin:0;border:1px solid $edge;padding:10px;break-inside:avoid}
figcaption{font-weight:bold;margin-bottom:4px}svg{width:100%;height:auto}
small{font-size:12px;white-space:nowrap}.wide{overflow-x:auto}.stop{font-weight:bold}
@media print{.plots{grid-template-columns:1fr 1fr}
body{max-width:none;padding:0;font-size:11px}tr{break-inside:avoid}
thead{display:table-header-group}.wide{overflow:visible}}
""").substitute(ink=INK, edge="#8a8a8a")
_NOTHING_FETCHED = "default-src 'none'; style-src 'unsafe-inline'"


def build_page(report: OfficeReport) -> bytes:
    """Make the page; the same report gives the same bytes."""
    title = f"Office report, {span_text(report)}"
    head = tag(
        "head",
        meta(charset="utf-8"),
        meta(http_equiv="Content-Security-Policy", content=_NOTHING_FETCHED),
        meta(name="viewport", content="width=device-width, initial-scale=1"),
        tag("title", title),
        style(_RULES),
    )
    body = tag(
        "body",
        tag("h1", "Office report"),
        tag("p", _summary(report)),
        _plots(report),
        tag("h2", "Production"),
        *(_table(work_table(report, by)) for by in ("job", "crew", "week")),
        tag("h2", "Right the first time"),
        *_quality(report),
        tag("h2", "Sand"),
        _table(sand_table(report)),
        tag("h2", "Open flags"),
        _table(flag_counts(report)),
        _flags(report),
        *_notes(report),
    )
    return document(head, body)


def _summary(report: OfficeReport) -> str:
    stops = sum(job.flags[0] for job in report.jobs)
    last = max((job.last_day for job in report.jobs), default="none")
    entries = sum(job.entries for job in report.jobs)
    return (
        f"Days: {span_text(report)}. {CountedNoun(len(report.jobs)):job|jobs}, "
        f"{CountedNoun(entries):entry|entries}, the last of "
        f"{last}. {CountedNoun(len(report.flags)):flag stands|flags stand} "
        f"open, {CountedNoun(stops):of them stops|of them stop} work."
    )


def _plots(report: OfficeReport) -> Markup:
    drawn = [_length_plot(report), _probe_plot(report), _sand_plot(report), _flag_plot(report)]
    return tag("div", *drawn, class_="plots")


def _figure(caption: str, drawing: Markup) -> Markup:
    return tag("figure", tag("figcaption", caption), drawing)


def _length_plot(report: OfficeReport) -> Markup:
    size, unit = (FOOT_NM, "ft") if report.is_us else (METRE_NM, "m")
    weeks = report.weeks[-_BARS_MOST:]
    series = [
        Series("sand slits", [one.done.sand_slit_nm / size for one in weeks]),
        Series("piped slits", [one.done.piped_slit_nm / size for one in weeks]),
        Series("collector pipe", [one.done.collector_pipe_nm / size for one in weeks]),
    ]
    caption = _last_words("Length by week", report.weeks)
    return _figure(caption, columns(caption, [_week(one) for one in weeks], series, unit))


def _probe_plot(report: OfficeReport) -> Markup:
    probed = [(one, one.quality.get(DEPTH_PROBE, Quality())) for one in report.weeks]
    measured = [(one, counts) for one, counts in probed if counts.places][-_BARS_MOST:]
    weeks = [one for one, _ in measured]
    shares = [100 * (told.places - told.first_in) / told.places for _, told in measured]
    caption = _last_words("Depth probes out of tolerance at first, by week", report.weeks)
    series = [Series("out at first, share of all places probed", shares)]
    return _figure(caption, columns(caption, [_week(one) for one in weeks], series, "%"))


def _sand_plot(report: OfficeReport) -> Markup:
    size, unit = (_UL_PER_YD3, "yd³") if report.is_us else (_UL_PER_M3, "m³")
    told = [
        (single_line(job.name), sand.delivered_ul / size, sand.placed_ul / size)
        for job in report.jobs
        for sand in job.sands
        if sand.delivered_ul is not None and sand.placed_ul is not None
    ][:_BARS_MOST]
    series = [Series("delivered", [one[1] for one in told])]
    series.append(Series("placed", [one[2] for one in told]))
    caption = "Sand to date by job"
    return _figure(caption, rows(caption, [one[0] for one in told], series, unit))


def _flag_plot(report: OfficeReport) -> Markup:
    worst = sorted(report.jobs, key=lambda job: tuple(-count for count in job.flags))
    jobs = [job for job in worst if any(job.flags)][:_BARS_MOST]
    names = ("stop", "fix", "note")
    series = [
        Series(name, [float(job.flags[place]) for job in jobs]) for place, name in enumerate(names)
    ]
    caption = "Open flags by job, worst first" if jobs else "Open flags by job: none stands open"
    return _figure(caption, rows(caption, [single_line(job.name) for job in jobs], series, ""))


def _table(table: Table, kind: str = "figures") -> Markup:
    head = tag("thead", tag("tr", *(tag("th", text, scope="col") for text in table.heads)))
    behind = table.behind or ("",) * len(table.rows)
    lines = [
        tag("tr", _first_cell(row[0], small), *(tag("td", text) for text in row[1:]))
        for row, small in zip(table.rows, behind, strict=True)
    ]
    body = tag("tbody", *lines)
    made = tag("table", tag("caption", table.title), head, body, class_=kind)
    return tag("div", made, class_="wide")


def _first_cell(name: str, small: str) -> Markup:
    return tag("td", name, " ", tag("small", small)) if small else tag("td", name)


def _quality(report: OfficeReport) -> list[Markup]:
    tables = [quality_table(report, by) for by in ("job", "crew", "week")]
    if not tables[0].rows:
        return [tag("p", "Nothing was measured that the plan sets limits for.")]
    return [*(_table(one) for one in tables), tag("p", QUALITY_NOTE)]


def _flags(report: OfficeReport) -> Markup:
    if not report.flags:
        return tag("p", "Nothing stands open.")
    made = _table(flag_table(report, _FLAGS_MOST), "words")
    more = len(report.flags) - _FLAGS_MOST
    said = (
        f"{CountedNoun(more):more stands|more stand} open: "
        "`crewapp office report --json` lists all."
        if more > 0
        else ""
    )
    return join_markup(made, tag("p", said)) if said else made


def _notes(report: OfficeReport) -> list[Markup]:
    said = [f"{single_line(job.name)}: {text}" for job in report.jobs for text in caveats(job)]
    if not said:
        return []
    return [tag("h2", "Not in these figures"), tag("ul", *(tag("li", text) for text in said))]


def _week(one: Production) -> str:
    return one.name[2:] if one.name[:2] == "20" else one.name


def _last_words(caption: str, lines: Sequence[Production]) -> str:
    return f"{caption}, the last {_BARS_MOST}" if len(lines) > _BARS_MOST else caption
