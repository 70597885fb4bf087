# Samples that wait until the broker has said that they are kept, oldest first, in memory of a fixed size.
import struct
from sample import FORMAT, SIZE


class Backlog:
    def __init__(self, room):
        self._held = bytearray(room * SIZE)
        self._room = room
        self._oldest = 0
        self.count = 0
        self.dropped = 0

    def add(self, taken_ms, number, signals):
        if self.count == self._room:
            self._oldest = (self._oldest + 1) % self._room
            self.count -= 1
            self.dropped += 1
        at = (self._oldest + self.count) % self._room * SIZE
        # the number dropped is kept with the sample, so that a repeat says the same
        struct.pack_into(FORMAT, self._held, at, taken_ms & 0xFFFFFFFF, number, self.dropped, *signals)
        self.count += 1

    def first(self):
        return struct.unpack_from(FORMAT, self._held, self._oldest * SIZE) if self.count else None

    def forget(self, number):
        """Forgets the oldest sample when it is this one."""
        sample = self.first()
        if sample is None or sample[1] != number:
            return False
        self._oldest = (self._oldest + 1) % self._room
        self.count -= 1
        return True
