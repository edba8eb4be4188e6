"""A sheet on which a build is begun: asked once, answered by one key."""

from __future__ import annotations

from logbook.screens.bench.beginning import Beginning, beginning
from logbook.screens.desk.news import Job
from logbook.screens.desk.slips import BENCH
from logbook.screens.ruled.asking import Answer
from logbook.screens.ruled.one_question import OneQuestion


class BeginningSheet(OneQuestion):
    """A sheet with a key that begins the next build, or the one named on its line."""

    def action_new_build(self) -> None:
        """Ask whether to begin the next build, or the one named on the line."""
        if not self.desk.is_open or self.question is not None:
            return
        typed = self.line.value.strip()
        begins = beginning(typed or "start build", self.desk.snapshot, self.desk.now())
        if begins is None:
            self.tell("the line says something else; Esc empties it", label="not begun")
        else:
            self.begin_build(begins)

    def begin_build(self, begins: Beginning) -> None:
        """Ask, then begin it, or go on with the one that has its name."""

        def answered(said: Answer) -> None:
            answer = begins.answer(said.words)
            if not answer:
                return
            self.line.put("")
            if begins.begun.known is not None:
                self.desk.go_on_with(begins.begun.known)
                self.keep_now("", BENCH)
            else:
                self.send(begins.job(answer, self.desk.when()))

        self.ask(begins.question, answered)

    def send(self, job: Job) -> None:
        """Have a job written."""
        self.desk.write(job)
