"""Which face of a casting is cut first, everything else being set from it."""

from __future__ import annotations

from halfthou.drawing.model import Hole
from halfthou.planning.cast.body import Face, faces_of
from halfthou.planning.cast.holes import crosses
from halfthou.planning.cast.pieces import Pieces


def first_face(pieces: Pieces, name: str) -> Face | None:
    """Give the face of a piece that is cut first: what the bore is measured from, or the joint.

    A seat comes first, everything else is set from it; of several the largest.
    """
    faces = [f for f in faces_of(pieces, name) if not f.stays_raw and not f.clean_up]
    if not faces:
        return None
    drawn = {
        n
        for d in pieces.part.distances
        if d.band.origin == "drawn"
        for n in (d.a, d.b)
        if _is_bore(pieces, d.a) or _is_bore(pieces, d.b)
    }
    joint = pieces.joint.name if pieces.joint is not None else ""

    def worth(face: Face) -> tuple[bool, bool, float]:
        return face.name in drawn, face.name == f"{name} {joint}", face.area

    return max(faces, key=worth)


def _is_bore(pieces: Pieces, surface: str) -> bool:
    return any(
        isinstance(f, Hole) and f.name == surface and (f.cored is not None or crosses(pieces, f))
        for f in pieces.part.features
    )
