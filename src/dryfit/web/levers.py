"""The levers of a study as a page moves them, read as a table of the job file would be."""

from pydantic import ValidationError

from ..editing import requests
from ..editing.drawn import no_such
from ..editing.refusals import refused
from ..job.arithmetic import ArithmeticMistake
from ..job.mistakes import explained
from ..job.model import Job
from ..job.options import Options, worked_out
from ..studies import STUDIES


def levers_of(study: str, sent: requests.WhatIf, job: Job) -> tuple[Options, ...]:
    """The levers that are moved, their lengths in mm.

    Raises:
        Refused: there is no such study or lever, or a figure is none for it.
    """
    if study not in STUDIES:
        raise no_such("study", study)
    known = {lever.__name__: lever for lever in STUDIES[study].levers}
    moved = []
    for name, figures in sent.levers.items():
        if name not in known:
            raise no_such(f"lever of {study}", name)
        try:
            moved.append(worked_out(known[name].model_validate(figures), job.measures, job.units))
        except ValidationError as error:
            raise refused("refused", *explained(known[name], error, name)) from None
        except ArithmeticMistake as mistake:
            raise refused("refused", mistake.says, mistake.remedy) from None
    return tuple(moved)
