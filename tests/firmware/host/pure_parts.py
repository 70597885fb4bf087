# The parts of the Wi-Fi board that need no board, run by MicroPython. An assertion that fails ends it.
from backlog import Backlog
from clock import Clock
from probes import thermistor_ohm
from sample import HAS_LIGHT, HAS_TEMPERATURE, IS_OHM, decimal, pack
import _time
import request


def signals(has=HAS_LIGHT | HAS_TEMPERATURE, temperature=-84):
    return (14137, 20251, 3800, 65535, temperature, 1234, has)


assert [decimal(*of) for of in ((5, 1), (0, 2), (-1 * 625, 4), (25000, 1))] == ["0.5", "0.00", "-0.0625", "2500.0"]

backlog = Backlog(3)
assert backlog.first() is None and not backlog.forget(1)
for number in range(1, 6):
    backlog.add(2**32 + number, number, signals())
assert (backlog.count, backlog.dropped) == (3, 2)
assert backlog.first()[:3] == (3, 3, 0)
assert not backlog.forget(4) and backlog.forget(3) and backlog.first()[:3] == (4, 4, 1)

text = pack("rush-1", 7, backlog.first(), "-12.500")
assert text == (
    '[{"bn":"rush-1/","bt":-12.500,"n":"startup","v":7},{"n":"message","v":4},{"n":"ph","u":"mV","v":1413.7},'
    '{"n":"moisture","u":"mV","v":2025.1},{"n":"light","u":"count","v":65535},'
    '{"n":"temperature","u":"Cel","v":-5.2500},{"n":"wind","u":"Hz","v":12.34},{"n":"battery","u":"mV","v":3800},'
    '{"n":"dropped","v":1}]'
), text
backlog.add(0, 6, signals(0))
while backlog.first()[1] != 6:
    backlog.forget(backlog.first()[1])
assert "light" not in pack("r", 1, backlog.first(), "0") and "temperature" not in pack("r", 1, backlog.first(), "0")
backlog.forget(6)
backlog.add(0, 7, signals(HAS_TEMPERATURE | IS_OHM, 12500))
assert '"n":"temperature","u":"Ohm","v":12500' in pack("r", 1, backlog.first(), "0")

assert request.read("who") == ("who", 0)
assert request.read("time 1780000000.250") == ("time", 1780000000250)
assert request.read("every 2.5") == ("every", 2500) and request.read("every 2.0629") == ("every", 2062)
for line in ("", "who ", "whoever", "time", "time x", "time 1.", "time .5", "every -3", "every 1 2", "kept 7 1", "sing"):
    assert request.read(line) is None, line

assert thermistor_ohm(16500, 10000, 3300) == 10000
assert thermistor_ohm(0, 10000, 3300) is None and thermistor_ohm(33000, 10000, 3300) is None

ticks = 2**30 - 500
_time.ticks_ms = lambda: ticks
clock = Clock()
assert clock.now() == 0 and clock.seconds(0) == "0.000"
ticks = 500  # the port's count has come round
assert clock.now() == 1000 and clock.seconds(0) == "-1.000"
clock.set(1780000000250)
assert clock.seconds(1000) == "1780000000.250" and clock.seconds(0) == "1779999999.250"
print("all so")
