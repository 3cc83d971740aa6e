"""What do the document's types say about a path: which keys may stand there, which type, which bounds?"""

from __future__ import annotations

import types
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from boltside.read.document import PatternDoc
from boltside.read.meant_number import Bounds
from boltside.read.yaml_tree import Path


def _bare(annotation: Any) -> Any:
    while get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    if get_origin(annotation) in (Union, types.UnionType):
        inner = [one for one in get_args(annotation) if one is not type(None)]
        return _bare(inner[0]) if len(inner) == 1 else annotation
    return annotation


def model_of(annotation: Any) -> type[BaseModel] | None:
    """The model that this type is, or may be; None when it is none."""
    bare = _bare(annotation)
    return bare if isinstance(bare, type) and issubclass(bare, BaseModel) else None


def _field(model: type[BaseModel], key: str) -> FieldInfo | None:
    for name, field in model.model_fields.items():
        if (field.alias or name) == key:
            return field
    return None


def field_at(path: Path, whole: type[BaseModel] = PatternDoc) -> FieldInfo | None:
    """What the model around this path says of its last key; None where the document has nothing.

    Here and below, `whole` is the type of the whole document.
    """
    model = model_of(annotation_at(path[:-1], whole))
    return _field(model, str(path[-1])) if model is not None else None


def annotation_at(path: Path, whole: type[BaseModel] = PatternDoc) -> Any:
    """The type of the value at this path; None where the document has nothing."""
    annotation: Any = whole
    for step in path:
        model = model_of(annotation)
        bare = _bare(annotation)
        if model is not None:
            field = _field(model, str(step))
            annotation = field.annotation if field is not None else None
        elif get_origin(bare) is list and isinstance(step, int):
            annotation = get_args(bare)[0]
        elif get_origin(bare) is dict:
            annotation = get_args(bare)[1]
        else:
            return None
    return annotation


def bounds_at(path: Path, whole: type[BaseModel] = PatternDoc) -> Bounds | None:
    """From where to where the number at this path may be; None where there is no number with bounds."""
    annotation = annotation_at(path, whole)
    field = field_at(path, whole) if path else None
    said: list[Any] = list(field.metadata) if field is not None else []
    while _bare(annotation) is not annotation:
        if get_origin(annotation) is Annotated:
            said += [one for known in get_args(annotation)[1:] for one in getattr(known, "metadata", [known])]
            annotation = get_args(annotation)[0]
        else:
            annotation = next(one for one in get_args(annotation) if one is not type(None))
    found = {key: getattr(one, key) for one in said for key in ("gt", "ge", "le") if hasattr(one, key)}
    if annotation not in (int, float) or "le" not in found or not ("gt" in found or "ge" in found):
        return None
    return Bounds(
        low=float(found["ge"] if "ge" in found else found["gt"]),
        high=float(found["le"]),
        low_is_in="ge" in found,
        in_mm=any(isinstance(step, str) and (step == "mm" or step.endswith("_mm")) for step in path),
        whole=annotation is int,
    )


def keys_at(path: Path, whole: type[BaseModel] = PatternDoc) -> list[str]:
    """The keys that may stand in the mapping at this path, as the file writes them."""
    model = model_of(annotation_at(path, whole))
    return [field.alias or name for name, field in model.model_fields.items()] if model is not None else []
