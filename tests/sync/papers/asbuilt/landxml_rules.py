"""What must hold of the LandXML we write, also where validators let it pass: references and names.

Facts of the published schema 1.2, for the elements that we write: required attributes, which
children may stand in which, the numbers in a position. On top come the references, which a
common validator accepts though they lead nowhere.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import isfinite
from xml.etree import ElementTree

_SPACE = "{http://www.landxml.org/schema/LandXML-1.2}"
_UNITS = ("areaUnit", "linearUnit", "volumeUnit", "temperatureUnit", "pressureUnit")
REQUIRED = {
    "LandXML": ("date", "time", "version"),
    "Imperial": _UNITS,
    "Metric": _UNITS,
    "Project": ("name",),
    "Application": ("name",),
    "Alignment": ("name", "length", "staStart"),
    "ProfSurf": ("name",),
    "ProfAlign": ("name",),
    "PipeNetwork": ("name", "pipeNetType"),
    "Struct": ("name",),
    "Invert": ("elev", "flowDir", "refPipe"),
    "Pipe": ("name", "refStart", "refEnd"),
    "CircPipe": ("diameter",),
    "Property": ("label", "value"),
}
CHILDREN = {
    "LandXML": "Units CoordinateSystem Project Application CgPoints Alignments PlanFeatures "
    "PipeNetworks",
    "Units": "Imperial Metric",
    "Project": "Feature",
    "CgPoints": "CgPoint",
    "Alignments": "Alignment",
    "Alignment": "CoordGeom Profile",
    "CoordGeom": "Line",
    "Line": "Start End",
    "Profile": "ProfSurf ProfAlign",
    "ProfSurf": "PntList2D",
    "ProfAlign": "PVI",
    "PipeNetworks": "PipeNetwork",
    "PipeNetwork": "Structs Pipes",
    "Structs": "Struct",
    "Struct": "Center OutletStruct Connection Invert",
    "Pipes": "Pipe",
    "Pipe": "CircPipe",
    "PlanFeatures": "PlanFeature",
    "PlanFeature": "CoordGeom Location Feature",
    "Feature": "Property",
}
POSITIONS = {"Start": 2, "End": 2, "Center": 2, "Location": 2, "CgPoint": 2, "PVI": 2}
NUMBERS = ("length", "staStart", "elev", "diameter", "thickness")
LEAST = {"Structs": 2, "Pipes": 1, "CoordGeom": 1, "Alignments": 1, "PipeNetworks": 1}


def faults_of(data: bytes) -> list[str]:
    """Everything wrong with a file, each in a sentence; empty when all is well."""
    root = ElementTree.fromstring(data)
    found: list[str] = []
    for element in root.iter():
        found += [*_attribute_faults(element), *_child_faults(element), *_number_faults(element)]
    return [*found, *_name_faults(root), *_reference_faults(root)]


def _name(element: ElementTree.Element) -> str:
    return element.tag.removeprefix(_SPACE)


def _attribute_faults(element: ElementTree.Element) -> Iterator[str]:
    for wanted in REQUIRED.get(_name(element), ()):
        if wanted not in element.attrib:
            yield f"{_name(element)} has no {wanted}."


def _child_faults(element: ElementTree.Element) -> Iterator[str]:
    """Unknown children, and children out of the order in which the schema has them."""
    name = _name(element)
    known = CHILDREN.get(name, "").split()
    children = [_name(child) for child in element]
    for child in children:
        if child not in known:
            yield f"{name} holds {child}, which does not belong there."
    places = [known.index(child) for child in children if child in known]
    if places != sorted(places):
        yield f"{name} holds its parts in another order than the schema."
    if len(children) < LEAST.get(name, 0):
        yield f"{name} holds {len(children)}, at least {LEAST[name]} are wanted."


def _number_faults(element: ElementTree.Element) -> Iterator[str]:
    name = _name(element)
    for key in NUMBERS:
        if key in element.attrib and not _are_numbers(element.attrib[key], 1):
            yield f"{key} of {name} is no number: {element.attrib[key]}."
    words = element.text or ""
    if name in POSITIONS and not _are_numbers(words, POSITIONS[name]):
        yield f"{name} is no position: {words}."
    if name == "PntList2D" and not (len(words.split()) >= 4 and _are_numbers(words, None)):
        yield f"PntList2D is no list of two pairs or more: {words}."


def _are_numbers(words: str, count: int | None) -> bool:
    """Whether a text is so many finite numbers; an even number of them where no count is given."""
    try:
        numbers = [float(word) for word in words.split()]
    except ValueError:
        return False
    is_so_many = len(numbers) % 2 == 0 if count is None else len(numbers) == count
    return is_so_many and all(isfinite(number) for number in numbers)


def _name_faults(root: ElementTree.Element) -> Iterator[str]:
    """Names that are given twice where the schema wants them once over the whole file."""
    for kind in ("Struct", "Pipe", "Alignment", "PipeNetwork", "CgPoint"):
        names = Counter(element.get("name") for element in root.iter(f"{_SPACE}{kind}"))
        yield from (f"{kind} {name} is there {n} times." for name, n in names.items() if n > 1)


def _reference_faults(root: ElementTree.Element) -> Iterator[str]:
    """References to nothing, and inverts that disagree with the pipe they are of."""
    names = {
        kind: {element.get("name") for element in root.iter(f"{_SPACE}{kind}")}
        for kind in ("Struct", "Pipe", "Alignment")
    }
    for element, key, kind in _references(root):
        if element.get(key) not in names[kind]:
            yield f"{_name(element)} names the {kind} {element.get(key)}, which is not there."
    ends = {pipe.get("name"): pipe for pipe in root.iter(f"{_SPACE}Pipe")}
    for struct in root.iter(f"{_SPACE}Struct"):
        for invert in struct.iter(f"{_SPACE}Invert"):
            pipe = ends.get(invert.get("refPipe"))
            end = "refStart" if invert.get("flowDir") == "out" else "refEnd"
            if pipe is not None and pipe.get(end) != struct.get("name"):
                yield f"Struct {struct.get('name')} is not the {end} of {pipe.get('name')}."


def _references(root: ElementTree.Element) -> Iterator[tuple[ElementTree.Element, str, str]]:
    for kind, key, to in (
        ("Pipe", "refStart", "Struct"),
        ("Pipe", "refEnd", "Struct"),
        ("Invert", "refPipe", "Pipe"),
        ("PipeNetwork", "alignmentRef", "Alignment"),
    ):
        for element in root.iter(f"{_SPACE}{kind}"):
            if key in element.attrib:
                yield element, key, to
