"""The papers of a finished job: the record as PDF and JSON, and the slip by which its wheels are tightened again."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.leaves import line
from benchbot.desk.paper_files import keep_paper
from benchbot.desk.sheets import Parcel, Sheet
from benchbot.errors import SettingError
from benchbot.jobs.record_json import record_bytes
from benchbot.jobs.retorque import slip
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import Refused
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Papers:
    """Made anew each time they are asked for: the same job gives the same bytes."""

    bench: Bench

    def send(self, handling: Handling, state: JobState) -> list[Block]:
        """Puts the files into the outbox, behind what is said of them; returns that."""
        words, number = self.bench.words(handling), state.number
        told: list[Block] = []
        planned = slip(state)
        if not isinstance(planned, Refused):
            when = [words.re_torque_distance.format(distance=planned.distance)] if planned.distance else []
            when += [words.re_torque_day.format(day=planned.on.isoformat())] if planned.on else []
            told.append(line(words.re_torque.format(when=words.re_torque_or.join(when))))
        elif planned.about == "setting":
            told.append(line(words.refused(planned)))
        self._document(handling, f"job-{number}.json", record_bytes(state), words.paper_plain.format(job=number))
        try:
            # loads what sets pages, which few need
            from benchbot.jobs.record_pdf import record_pdf
            from benchbot.jobs.slip_pdf import slip_pdf

            pdf = record_pdf(state)
            self._document(handling, f"job-{number}.pdf", pdf, words.paper_record.format(job=number))
            if not isinstance(planned, Refused):
                pdf = slip_pdf(planned)
                self._document(handling, f"job-{number}-slip.pdf", pdf, words.paper_slip.format(job=number))
        except SettingError as error:
            told.append(line(words.paper_none.format(why=error), "before"))
        return told

    def _document(self, handling: Handling, name: str, content: bytes, caption: str) -> None:
        code = keep_paper(self.bench.home, name, content)
        incoming = handling.incoming
        sheet = Sheet((line(caption),))
        handling.send(Parcel("document", incoming.chat, sheet, incoming.topic, code=code, title=name, twice=True))
