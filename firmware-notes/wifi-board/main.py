# A board with five probes on Wi-Fi: what it says and hears is in ../PROTOCOL.md, how it is wired in ../wiring/.
# Change settings.py for your own board, and copy all files of this folder to it.
import time
import machine
import request
import settings
from backlog import Backlog
from clock import Clock
from link import Link
from probes import MEASURING_MS, Probes
from sample import pack
from startup import next_startup

SHORTEST_INTERVAL_MS = 1000
LONGEST_INTERVAL_MS = 86400000
STEP_MS = 50


class Board:
    def __init__(self):
        self._startup = next_startup()
        self._clock = Clock()
        self._backlog = Backlog(settings.ROOM)
        self._probes = Probes(self._clock.now())
        self._link = Link(settings.BOARD_NAME, self._on_ask)
        self._number = 0
        self._interval_ms = settings.INTERVAL_MS
        self._is_asked_who = False
        self._measure_from(MEASURING_MS)

    def step(self):
        now = self._clock.now()
        if not self._is_measuring and now + MEASURING_MS >= self._due_ms:
            self._probes.start()
            self._is_measuring = True
        if now >= self._due_ms:
            self._number += 1
            self._backlog.add(now, self._number, self._probes.read(now))
            # one that came late, while the link was being made, does not bring a burst after it
            self._due_ms = max(self._due_ms + self._interval_ms, now + SHORTEST_INTERVAL_MS)
            self._is_measuring = False
        kept = self._link.step(now)
        if kept is not None:
            self._backlog.forget(kept)
        if self._link.is_free():
            self._send(now)

    def _send(self, now):
        if self._is_asked_who:
            self._is_asked_who = False
            self._link.send(None, self._about(), now)
            return
        sample = self._backlog.first()
        if sample:
            text = pack(settings.BOARD_NAME, self._startup, sample, self._clock.seconds(sample[0]))
            self._link.send(sample[1], text, now)

    def _about(self):
        missing = "".join("; no %s" % name for name in self._probes.missing)
        text = "Wi-Fi board, start-up %d; every %d ms; %d of %d messages waiting%s" % (
            self._startup,
            self._interval_ms,
            self._backlog.count,
            settings.ROOM,
            missing,
        )
        return '[{"bn":"%s/","n":"about","vs":"%s"}]' % (settings.BOARD_NAME, text)

    def _on_ask(self, text):
        asked, ms = request.read(text) or (None, 0)
        if asked == "who":
            self._is_asked_who = True
        elif asked == "time":
            self._clock.set(ms)
        elif asked == "every":
            self._interval_ms = min(max(ms, SHORTEST_INTERVAL_MS), LONGEST_INTERVAL_MS)
            self._measure_from(self._interval_ms)

    def _measure_from(self, wait_ms):
        self._due_ms = self._clock.now() + wait_ms
        self._is_measuring = False


board = Board()
watchdog = machine.WDT(timeout=30000)
while True:
    watchdog.feed()
    board.step()
    time.sleep_ms(STEP_MS)  # the processor rests, the radio too; the cups are counted meanwhile
