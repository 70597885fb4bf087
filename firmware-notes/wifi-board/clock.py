# What the board knows of the time: milliseconds since it began, and what the hub said it was at one of them.
import time


class Clock:
    def __init__(self):
        self._ticks = time.ticks_ms()
        self._now = 0
        self._known = None

    def now(self):
        """Milliseconds since the board began. Call it more often than once a day: the port's own count comes round."""
        ticks = time.ticks_ms()
        self._now += time.ticks_diff(ticks, self._ticks)
        self._ticks = ticks
        return self._now

    def set(self, unix_ms):
        self._known = unix_ms - self.now()

    def seconds(self, taken_low_ms):
        """When something was taken, for SenML: Unix time where it is known, otherwise seconds before this moment."""
        now = self.now()
        age = (now - taken_low_ms) & 0xFFFFFFFF
        if self._known is None:
            return "%s%d.%03d" % ("-" if age else "", age // 1000, age % 1000)
        at = self._known + now - age
        return "%d.%03d" % (at // 1000, at % 1000)
