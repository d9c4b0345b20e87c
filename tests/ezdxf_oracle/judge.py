"""What a drawing says, read by ezdxf and by Python's own XML parser, against what the plate must be."""

import io
import xml.etree.ElementTree as tree
from decimal import Decimal

SVG = "{http://www.w3.org/2000/svg}"


class Wrong(Exception):
    """A drawing is not the plate."""


def need(holds, *words):
    if not holds:
        raise Wrong(" ".join(str(word) for word in words))


def nm(number, parts=1):
    """A float of millimetres as a whole number of nanometres, or of parts of one."""
    scaled = number * 1_000_000 * parts
    need(abs(scaled - round(scaled)) < 1e-2, number, "is no whole number of nanometres")
    return round(scaled)


def shown(mark):
    """A mark as a drawing can hold it."""
    return "".join(c if ord(c) < 0x10000 else "?" for c in mark)


def dxf(text, shape, mark, engraved):
    import ezdxf
    from ezdxf import bbox

    size, holes, hole = shape
    drawing = ezdxf.read(io.StringIO(text, newline=None))
    audit = drawing.audit()
    need(not audit.errors and not audit.fixes, "audit:", [it.message for it in audit.errors + audit.fixes])
    need(drawing.dxfversion == "AC1015", "version", drawing.dxfversion)
    # 4: millimetres; 1: metric
    need(drawing.units == 4 and drawing.header.get("$INSUNITS") == 4, "units", drawing.units)
    need(drawing.header.get("$MEASUREMENT") == 1, "measurement")
    low, high = drawing.header.get("$EXTMIN"), drawing.header.get("$EXTMAX")
    need([nm(low[0]), nm(low[1]), nm(high[0]), nm(high[1])] == [0, 0, *size], "extents", low, high)
    model = drawing.modelspace()
    need({it.dxf.layer for it in model} <= {"CUT", "HOLES", "ENGRAVE"}, "layers")
    need({"CUT", "HOLES", "ENGRAVE"} <= {it.dxf.name for it in drawing.layers}, "no such layers")
    need(len(model) == 5 + (engraved is not None), len(model), "shapes")
    lines = model.query('LWPOLYLINE[layer=="CUT"]')
    need(len(lines) == 1 and lines[0].closed, "one closed outline is needed")
    corners = [tuple(nm(it) for it in corner) for corner in lines[0].get_points("xyb")]
    need([it[:2] for it in corners] == [(0, 0), (size[0], 0), size, (0, size[1])], "outline", corners, size)
    need(not any(it[2] for it in corners), "the outline is not straight")
    circles = model.query('CIRCLE[layer=="HOLES"]')
    need({(nm(it.dxf.center.x), nm(it.dxf.center.y)) for it in circles} == holes, "holes", list(holes))
    need(len(circles) == 4 and all(nm(it.dxf.radius, 2) == hole for it in circles), "diameters", hole)
    texts = model.query('TEXT[layer=="ENGRAVE"]')
    need(len(texts) == (engraved is not None), "marks")
    for mark_read in texts:
        read = ezdxf.decode_dxf_unicode(mark_read.plain_text())
        need(read == shown(mark), "mark", repr(read), repr(mark))
        need([nm(it) for it in mark_read.dxf.insert][:2] == engraved["at_nm"], "place of the mark")
        need(mark_read.dxf.rotation == (90 if engraved["turned"] else 0), "turn of the mark")
        need(nm(mark_read.dxf.height) == engraved["height_nm"], "height of the mark")
        mark_read.dxf.text = ezdxf.decode_dxf_unicode(mark_read.dxf.text)
        box = bbox.extents([mark_read])
        need(box.extmin.x > 0 and box.extmin.y > 0, "the mark leaves the plate")
        need(box.extmax.x * 1e6 < size[0] and box.extmax.y * 1e6 < size[1], "the mark leaves the plate")
        for x, y in holes:
            beside_x = box.extmax.x * 1e6 < x - hole / 2 or box.extmin.x * 1e6 > x + hole / 2
            beside_y = box.extmax.y * 1e6 < y - hole / 2 or box.extmin.y * 1e6 > y + hole / 2
            need(beside_x or beside_y, "the mark runs over a hole")


def exact(text):
    """A decimal of millimetres as nanometres, with every digit."""
    scaled = Decimal(text) * 1_000_000
    return int(scaled) if scaled == int(scaled) else scaled


def svg(text, shape, mark, engraved):
    size, holes, hole = shape
    root = tree.fromstring(text)
    need(root.tag == SVG + "svg", root.tag)
    left, top, width, height = (Decimal(it) for it in root.get("viewBox").split())
    for name, side in (("width", width), ("height", height)):
        given = root.get(name)
        need(given.endswith("mm") and Decimal(given[:-2]) == side, name, given, "is not one millimetre a unit")
    need(left <= 0 and top <= 0, "the plate begins before the page")
    need(left + width >= Decimal(size[0]) / 10**6 and top + height >= Decimal(size[1]) / 10**6, "the page is too small")
    groups = {it.get("id"): list(it) for it in root.iter(SVG + "g")}
    need(set(groups) == {"CUT", "HOLES"} | ({"ENGRAVE"} if engraved else set()), "groups", list(groups))
    need([it.tag for it in groups["CUT"]] == [SVG + "polygon"], "one outline is needed")
    points = [tuple(exact(it) for it in point.split(",")) for point in groups["CUT"][0].get("points").split()]
    need(sorted(points) == sorted([(0, 0), (size[0], 0), size, (0, size[1])]), "outline", points)
    need(all((a[0] == b[0]) != (a[1] == b[1]) for a, b in zip(points, points[1:])), "the outline crosses itself")
    need(all(it.tag == SVG + "circle" for it in groups["HOLES"]) and len(groups["HOLES"]) == 4, "circles")
    # y runs down here
    read = {(exact(it.get("cx")), size[1] - exact(it.get("cy"))) for it in groups["HOLES"]}
    need(read == holes, "holes", read, list(holes))
    need(all(exact(it.get("r")) * 2 == hole for it in groups["HOLES"]), "diameters", hole)
    need(not any(it.get("transform") for name in ("CUT", "HOLES") for it in groups[name]), "something is moved")
    for it in groups.get("ENGRAVE", []):
        need(it.tag == SVG + "text" and it.text == mark, "mark", repr(it.text), repr(mark))
        at = [exact(it.get("x")), size[1] - exact(it.get("y"))]
        need(at == engraved["at_nm"], "place of the mark", at)
        need(bool(it.get("transform")) == engraved["turned"], "turn of the mark")
