"""The load of one person at one mark, told in full: phases, straps, floor, joints, tempo, anchor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, nan
from typing import Final

import numpy as np

from leanmark.body.bodies import Bodies
from leanmark.body.segments import SEGMENT_COUNT
from leanmark.mechanics.arrays import Floats, Ints
from leanmark.mechanics.ballistic import ballistic_loads
from leanmark.mechanics.dynamics import Tempo, moving_loads
from leanmark.mechanics.interval import DEFAULT_UNCERTAINTY, Uncertainty, spread
from leanmark.mechanics.loads import Loads
from leanmark.mechanics.measure import measured
from leanmark.mechanics.position import Rep, solve_rep
from leanmark.mechanics.reasons import FINE, REASONS
from leanmark.mechanics.supports import Supports
from leanmark.mechanics.task import Geometry
from leanmark.moves.readings import floor_reports, joint_reports, lean_deg
from leanmark.moves.report_form import (
    LOAD_WORDS,
    FlightReport,
    LoadReport,
    PhaseReport,
    Range,
    StrapReport,
    TempoReport,
)
from leanmark.moves.stand import Stand, rep_bodies, rep_geometry
from leanmark.rig.anchor_check import Pace, check_anchor
from leanmark.rig.floors import CAUTION_FRICTION

_NO_RANGE: Final = Range(nan, nan, nan)


def load_report(
    standing: Stand,
    mark_m: float,
    tempo: Tempo | None = None,
    flight_m: float | None = None,
    unknown: Uncertainty = DEFAULT_UNCERTAINTY,
    people_on_beam: int = 1,
) -> LoadReport:
    """Full report of the stand's one person at one mark; a person with two tables spans both.

    people_on_beam: how many such people pull on what the maker rated, at once.
    """
    rep, _ = standing.rep(np.array([mark_m]), np.zeros(1, dtype=np.intp))
    balance = rep.balance()
    loads, *ends = rep.loads_within(balance) if rep.supports.straps else (rep.loads(balance),)
    reasons = rep.reasons(loads)
    ranges = _ranges(standing, rep, loads, ends, unknown)
    wrong = list(dict.fromkeys(REASONS[int(code)] for code in reasons.reshape(-1) if code != FINE))
    mark = standing.rung.mark or standing.move.mark
    report = LoadReport(
        move=standing.move.move,
        rung=standing.rung.rung,
        mark_m=mark_m,
        mark_of=mark.of,
        strap_m=standing.strap_m,
        anchor_height_m=standing.rig.anchor_height_m,
        body_mass_kg=standing.people.builds[0].mass_kg,
        stature_m=standing.people.builds[0].stature_m,
        load_is=LOAD_WORDS[standing.move.load],
        feasible=not wrong,
        reasons=wrong,
        phases=[
            _phase(standing, rep, loads, ranges, reasons, name, node)
            for name, node in _phases(standing, len(rep.nodes))
        ],
        moving=_moving(rep, loads, tempo) if tempo and len(rep.nodes) > 1 and not wrong else None,
        flight=_flight(rep, flight_m) if flight_m and len(rep.nodes) > 1 and not wrong else None,
    )
    report.grip = _grip_caution(report.phases)
    if rep.supports.straps and not wrong:
        peak, pace = peak_anchor_n(report)
        report.anchor = check_anchor(np.full(people_on_beam, peak), standing.rig.rated_load_n, pace).words()
    return report


def _phases(standing: Stand, nodes: int) -> list[tuple[str, int]]:
    if standing.task.still:
        return [("hold", 0)]
    return [("start", 0), ("middle", nodes // 2), ("end", nodes - 1)]


@dataclass(frozen=True)
class _Ranges:
    """Intervals at K nodes: load (K, 3) and total strap tension (K, 3) as value, low and high; joint moments
    low and high (K, 18, 3)."""

    load: Floats
    total_n: Floats
    low_nm: Floats
    high_nm: Floats


def _ranges(standing: Stand, rep: Rep, loads: Loads, ends: Sequence[Loads], unknown: Uncertainty) -> _Ranges:
    """What pressure within the patches, the tables and measuring errors allow, spanning the tables.

    Where the pressure sits widens a load that the straps bear; a load of strength is that of least effort,
    since at the ends of the pressure's range people would work against themselves.
    """
    steps, measure = len(rep.nodes), standing.move.load

    def read(found: Loads, supports: Supports) -> Floats:
        moments = found.joint_moment_nm.reshape(len(found.outcome), -1)
        total = found.strap_tension_n.sum(axis=1)
        every = np.column_stack([measured(found, supports, measure), total, moments])
        return every.reshape(-1, steps, every.shape[1])

    def solve(bodies: Bodies, geometry: Geometry) -> Floats:
        other = solve_rep(standing.task, bodies, geometry, rep.nodes)
        return read(other.static_loads(), other.supports)

    still_unknown = standing.known_of(np.zeros(rep.count, dtype=np.intp), unknown)
    half = spread(solve, rep_bodies(rep), rep_geometry(rep), still_unknown)
    value = read(loads, rep.supports)
    reached = [value, *(read(end, rep.supports) for end in ends)]
    low = np.min(reached, axis=0) - half
    high = np.max(reached, axis=0) + half
    if measure != "straps":
        low[..., 0], high[..., 0] = value[..., 0] - half[..., 0], value[..., 0] + half[..., 0]
    moments = (steps, SEGMENT_COUNT, 3)
    return _Ranges(
        _spanned(value[..., 0], low[..., 0], high[..., 0]),
        _spanned(value[..., 1], low[..., 1], high[..., 1]),
        low[..., 2:].min(axis=0).reshape(moments),
        high[..., 2:].max(axis=0).reshape(moments),
    )


def _grip_caution(phases: Sequence[PhaseReport]) -> str:
    """Words of caution where a position needs more grip than a floor should be asked for untried."""
    needed = max((phase.friction_needed for phase in phases if isfinite(phase.friction_needed)), default=0.0)
    if needed <= CAUTION_FRICTION:
        return ""
    asked = f"needs {needed:.2f}, more than {CAUTION_FRICTION:.2f}"
    return f"{asked}: try these shoes on this floor at an easier mark first"


def _spanned(value: Floats, low: Floats, high: Floats) -> Floats:
    """Mean and span over the tables, (K, 3); a load that pulls or bears is never below zero."""
    return np.stack([value.mean(axis=0), np.maximum(low.min(axis=0), 0.0), high.max(axis=0)], axis=-1)


def _phase(
    standing: Stand, rep: Rep, loads: Loads, ranges: _Ranges, reasons: Ints, name: str, node: int
) -> PhaseReport:
    reason = REASONS[int(reasons[0, node])]
    if not rep.solution.met.reshape(reasons.shape)[:, node].all():
        return PhaseReport(name, nan, _NO_RANGE, _NO_RANGE, [], [], nan, nan, [], reason)
    return PhaseReport(
        phase=name,
        lean_deg=float(lean_deg(rep)[node]),
        load_percent=Range(*(100.0 * ranges.load[node]).tolist()),
        strap_total_n=Range(*ranges.total_n[node].tolist()),
        straps=[
            StrapReport(strap.side, float(loads.strap_tension_n[node, k]))
            for k, strap in enumerate(rep.supports.straps)
        ],
        floor=floor_reports(rep, loads, node),
        friction_needed=float(loads.friction_needed[node]),
        grip_margin=float(standing.rig.floor_friction - loads.friction_needed[node]),
        joints=joint_reports(loads, node, ranges.low_nm[node], ranges.high_nm[node]),
        reason=reason,
    )


def _moving(rep: Rep, held: Loads, tempo: Tempo) -> TempoReport:
    moving = moving_loads(rep, tempo)
    still = float(held.strap_tension_n.sum(axis=1).max(initial=0.0))
    peak = max(float(moving.peak_strap_n.max()), still)
    margin = float(moving.slack_margin.min())
    return TempoReport(
        (tempo.eccentric_s, tempo.low_pause_s, tempo.concentric_s, tempo.high_pause_s),
        peak,
        peak / still if still > 0.0 else 1.0,
        100.0 * margin if np.isfinite(margin) else 100.0,
        bool(moving.taut.all()),
        bool(moving.smooth.all()),
    )


def _flight(rep: Rep, flight_m: float) -> FlightReport:
    flying = ballistic_loads(rep, flight_m)
    used = [(flying.push_off, flying.push_nodes), (flying.landing, flying.landing_nodes)]
    strap = [loads.strap_tension_n.sum(axis=1).reshape(rep.count, -1)[:, nodes] for loads, nodes in used]
    floor = [
        loads.contact_force_n[..., 2].sum(axis=1).reshape(rep.count, -1)[:, nodes] for loads, nodes in used
    ]
    return FlightReport(
        flight_m,
        float(flying.flight_s.max()),
        float(max(part.max(initial=0.0) for part in strap)),
        float(max(part.max(initial=0.0) for part in floor)),
        bool(flying.possible.all()),
    )


def peak_anchor_n(report: LoadReport) -> tuple[float, Pace]:
    """The largest force on the anchor in the report, and at which pace it comes."""
    held = max((phase.strap_total_n.high for phase in report.phases), default=0.0)
    peaks: list[tuple[float, Pace]] = [(held, "held")]
    if report.moving:
        peaks.append((report.moving.peak_strap_n, "tempo"))
    if report.flight:
        peaks.append((report.flight.peak_strap_n, "ballistic"))
    return max(peaks)
