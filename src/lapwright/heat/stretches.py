"""A year in stretches stepped side by side, until each begins with what the one before it left (question 5).

A roof forgets its warmth within a day or two, so that stretches of two days take few rounds.  A film of water does
not: in deep frost it lasts for weeks.  How wet a stretch ends is therefore reckoned ahead from how wet it begins.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.defaults.table import table
from lapwright.heat.buildup import Step
from lapwright.heat.stepping import Course, Drive, State, stepped
from lapwright.heat.surface import SurfaceSetting
from lapwright.weather.values import Array, Flags

STRETCH_H = 48
_ROUNDS, _ROUNDS_AHEAD = 24, 6  # 2 to 5 settle all; in the first ones the film is reckoned ahead
_SETTLED_K, _SETTLED_MM = 1e-3, 1e-4
_MANY = 50  # columns worth a round of their own that tells how they end when they begin full


def cut(rows: Array) -> Array:
    """(hours,) or (models, hours) as (stretch hours, columns); the last stretch is filled up with its last hour.

    Source: arithmetic
    """
    hours = rows.shape[-1]
    length = min(STRETCH_H, hours)
    stretches = -(-hours // length)
    index = np.minimum(np.arange(stretches * length), hours - 1)
    columns: Array = np.ascontiguousarray(rows[..., index].reshape(-1, length).T)
    return columns


def by_hour(columns: Array, hours: int) -> Array:
    """(stretch hours, columns) as (models, hours).

    Source: arithmetic
    """
    stretches = -(-hours // len(columns))
    rows: Array = columns.T.reshape(-1, stretches * len(columns))[:, :hours]
    return rows


def settled(drive: Drive, step: Step, setting: SurfaceSetting, models: int) -> Course:
    """All stretches, each begun with what the one before it left; the first of each model with a dry roof at rest.

    The second half of each stretch alone, begun at rest, tells about how warm it ends, and how wet at the least and at
    the most.  From that on whole stretches are stepped, until no begin moves any more.
    Source: arithmetic
    Checked: tests/heat/test_surface_year.py
    """
    half, most_mm = drive.since(len(drive.gain_w_m2) // 2), table("heat")["film_most"].number()
    ended = stepped(half, step, setting, at_rest(half, step, setting)).ended
    full = stepped(half, step, setting, at_rest(half, step, setting, most_mm)).ended
    chain = _Chain(models, most_mm, at_rest(drive, step, setting), ended.film_mm, full.film_mm)
    begin = chain.handed(ended)
    found = stepped(drive, step, setting, begin)
    for count in range(_ROUNDS):
        handed = chain.handed(found.ended)
        moving = _differ(handed, begin)
        if not moving.any():
            break
        if count < _ROUNDS_AHEAD:
            chain.dry_mm = np.where(begin.film_mm == 0, found.ended.film_mm, chain.dry_mm)
            ahead_mm = chain.ahead_mm(begin.film_mm, found.ended.film_mm)
            if count == 0 and (many := np.abs(ahead_mm - begin.film_mm) >= _SETTLED_MM).sum() > _MANY:
                fully = State(handed.points_c[:, many], np.full(many.sum(), most_mm))
                chain.full_mm[many] = stepped(drive.some(many), step, setting, fully).ended.film_mm
                ahead_mm = chain.ahead_mm(begin.film_mm, found.ended.film_mm)
            handed = State(handed.points_c, ahead_mm)
            moving |= _differ(handed, begin)
        begin.put(moving, handed.some(moving))
        found.put(moving, stepped(drive.some(moving), step, setting, begin.some(moving)))
    return found


def at_rest(drive: Drive, step: Step, setting: SurfaceSetting, film_mm: float = 0.0) -> State:
    """Where hours begin before anything is known: the surface as warm as the air.

    Source: arithmetic
    """
    air_c = drive.air_c[1]
    return State(air_c + step.share[:, None] * (setting.inside_c - air_c), np.full_like(air_c, film_mm))


def _differ(one: State, other: State) -> Flags:
    """Columns that are not where they were."""
    moved: Flags = np.abs(one.points_c - other.points_c).max(axis=0) >= _SETTLED_K
    moved |= np.abs(one.film_mm - other.film_mm) >= _SETTLED_MM
    return moved


@dataclass(slots=True)
class _Chain:
    """How each stretch follows the one before it, model by model.

    begun: the first stretches.  dry_mm, full_mm: film at the end of a stretch that begins dry, and with most_mm.
    """

    models: int
    most_mm: float
    begun: State
    dry_mm: Array
    full_mm: Array

    def handed(self, ended: State) -> State:
        """Where each column begins: where the stretch before it ends; the first ones as they do."""
        columns = ended.film_mm.size
        is_first = np.arange(columns) % (columns // self.models) == 0
        return State(
            np.where(is_first, self.begun.points_c, np.roll(ended.points_c, 1, axis=1)),
            np.where(is_first, self.begun.film_mm, np.roll(ended.film_mm, 1)),
        )

    def ahead_mm(self, begun_mm: Array, ended_mm: Array) -> Array:
        """Film at the begin of each column [mm], reckoned on from how stretches ended that began with some film.

        A stretch that ends with more than when it began dry ends with as much more as it begins with more; one that
        dries out does so up to the film that, as when it begins full, would last.
        """
        is_dried = ended_mm < self.dry_mm + _SETTLED_MM
        gained = np.where(is_dried, self.full_mm - self.most_mm, ended_mm - begun_mm)
        least, most, gained = (rows.reshape(self.models, -1).T for rows in (self.dry_mm, self.full_mm, gained))
        begin_mm = np.zeros_like(least)
        for before in range(len(begin_mm) - 1):
            film = begin_mm[before] + gained[before]
            begin_mm[before + 1] = np.maximum(np.minimum(film, most[before]), least[before])
        columns: Array = begin_mm.T.ravel()
        return columns
