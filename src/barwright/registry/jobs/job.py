"""A job as loaded: the corners of one vehicle, as they are and as wanted."""

from __future__ import annotations

import attrs

from barwright.parts.common.in_short import Summarised
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted

__all__ = ["Job", "JobCorner", "WorkOrder"]


@attrs.frozen(kw_only=True, repr=False)
class JobCorner(Summarised):
    """One corner of a job.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    present : Setup
        The corner as it is now.
    wanted : Wanted
        The wanted height.
    """

    setup: Setup
    present: Setup
    wanted: Wanted

    def _in_short(self) -> str:
        """Show its corner and its wish."""
        return f"{self.setup.corner}, {repr(self.wanted).strip('<>')}"


@attrs.frozen(kw_only=True, repr=False)
class WorkOrder(Summarised):
    """Whose vehicle it is and what was agreed: carried to the sheet, and to nothing else.

    Parameters
    ----------
    customer : str
        Whom the shop works for.
    registration : str
        What stands on the number plate.
    date : str
        Of the work, as the shop writes it.
    odometer : str
        What the odometer says, as the shop writes it.
    notes : str
        What else the bench must know.
    """

    customer: str = ""
    registration: str = ""
    date: str = ""
    odometer: str = ""
    notes: str = ""

    @property
    def whose(self) -> tuple[str, ...]:
        """Customer, plate, date and odometer in a line; none if none is given."""
        given = (self.customer, self.registration, self.date, self.odometer)
        return tuple(filter(None, [" · ".join(filter(None, given))]))

    @property
    def noted(self) -> tuple[str, ...]:
        """What was noted, in a line; none if nothing was."""
        return tuple(filter(None, [self.notes and f"Noted: {self.notes}"]))


@attrs.frozen(kw_only=True, repr=False)
class Job(Summarised):
    """A job: a vehicle, the parts to fit, and the wanted height.

    Parameters
    ----------
    title : str
        What the shop calls it.
    corners : tuple of JobCorner
        The corners to work on.
    variant : str
        Which of several vehicles and parts it is; empty if the job names one.
    vehicle : WholeVehicle, optional
        What was read of the whole vehicle on its wheels; none if the job does not say.
    order : WorkOrder
        Whose vehicle it is, and what was agreed.
    """

    title: str
    corners: tuple[JobCorner, ...]
    variant: str = ""
    vehicle: WholeVehicle | None = None
    order: WorkOrder = attrs.field(factory=WorkOrder)
