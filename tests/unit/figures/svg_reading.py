"""Read back what a picture holds: its elements, its texts and the boxes they cover."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from xml.etree import ElementTree

from boomwright.charts.labels import Box, text_width

SVG = "{http://www.w3.org/2000/svg}"


def parsed(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314 - made by this project a moment ago


def every(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    # The rim of a label, in paper colour below the label itself, is no label of its own.
    return [each for each in root.iter(SVG + name) if each.get("aria-hidden") != "true"]


def data_list(element: ElementTree.Element, name: str) -> list[float]:
    return json.loads(element.attrib[name])


def text_boxes(root: ElementTree.Element) -> Iterator[tuple[str, Box]]:
    """Boxes of drawn letters: from the baseline up to a capital's height, turned where turned."""
    for element in every(root, "text"):
        size, content = float(element.attrib["font-size"]), element.text or ""
        x, y = float(element.attrib["x"]), float(element.attrib["y"])
        # Bold letters of the face are about a tenth wider.
        wide = text_width(content, size=size) * (1.1 if "font-weight" in element.attrib else 1.0)
        start = {"start": 0.0, "middle": 0.5, "end": 1.0}[element.get("text-anchor", "start")]
        high = 0.72 * size
        if "transform" in element.attrib:
            assert re.match(r"rotate\(-90 ", element.attrib["transform"])
            low = y + start * wide
            yield content, Box(left=x - high, top=low - wide, right=x, bottom=low)
        else:
            left = x - start * wide
            yield content, Box(left=left, top=y - high, right=left + wide, bottom=y)


def overlaps(svg: str) -> list[tuple[str, str]]:
    boxes = list(text_boxes(parsed(svg)))
    return [
        (a, b)
        for i, (a, box) in enumerate(boxes)
        for b, other in boxes[i + 1 :]
        if box.meets(other)
    ]


def cut_off(svg: str) -> list[str]:
    root = parsed(svg)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    sheet = Box(left=0.0, top=0.0, right=width, bottom=height)
    return [content for content, box in text_boxes(root) if not box.within(sheet)]
