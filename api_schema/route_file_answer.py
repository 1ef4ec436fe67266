"""What the service reads from route files, on the wire."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, WithJsonSchema

from api_schema.file_answer import FileAssumptionAnswer
from api_schema.strict import StrictModel

# A part of a request as it takes it; its schema is that of the request, with defaults.
RoutePart: TypeAlias = Annotated[
    dict[str, Any],
    WithJsonSchema({"type": "object", "allOf": [{"$ref": "#/components/schemas/RouteRequest"}]}),
]


class SmoothingAnswer(StrictModel):
    """How ascent, descent and angles were computed from the points of a track."""

    bin_m: float = Field(
        description="Elevations are averaged over pieces of this length along the track."
    )
    reversal_m: float = Field(description="A smaller rise or fall than this counts as noise.")
    method: str


class LegProfileAnswer(StrictModel):
    """The figures of one leg as measured on the track, not rounded for a request."""

    leg_id: str
    distance_m: float
    ascent_m: float
    descent_m: float
    steepest_deg: float
    profile: list[list[float]] = Field(
        description="Distance from the start of the leg and elevation, in metres, at most 200 "
        "points."
    )


class RouteFileAnswer(StrictModel):
    """A route as a request takes it: `route`."""

    route: RoutePart = Field(
        description="Places and legs. `mode` of each leg and the kind of place are assumed; "
        "correct them."
    )
    legs: list[LegProfileAnswer]
    source: Literal["track", "waypoints"]
    points: int
    smoothing: SmoothingAnswer
    assumed: list[FileAssumptionAnswer]
