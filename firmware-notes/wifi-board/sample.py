# One sample as it waits in memory, and as it is sent. Whole numbers only: the board's floats have seven digits.
import struct

# taken at (ms, the low 32 bits), number, dropped before it, pH and moisture in tenths of a millivolt, battery in mV,
# light, temperature (sixteenths of a degree, or ohm), wind in hundredths of a hertz, what there is
FORMAT = "<IIIIIIIiIB"
SIZE = struct.calcsize(FORMAT)
HAS_LIGHT = 1
HAS_TEMPERATURE = 2
IS_OHM = 4


def decimal(scaled, decimals):
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled), 10**decimals)
    return "%s%d.%0*d" % (sign, whole, decimals, rest)


def pack(board, startup, sample, seconds):
    """A SenML pack. seconds: when it was taken, as text (see clock.py)."""
    _, number, dropped, ph, moisture, battery, light, temperature, wind, has = sample
    records = [
        '{"bn":"%s/","bt":%s,"n":"startup","v":%d}' % (board, seconds, startup),
        '{"n":"message","v":%d}' % number,
        '{"n":"ph","u":"mV","v":%s}' % decimal(ph, 1),
        '{"n":"moisture","u":"mV","v":%s}' % decimal(moisture, 1),
    ]
    if has & HAS_LIGHT:
        records.append('{"n":"light","u":"count","v":%d}' % light)
    if has & IS_OHM:
        records.append('{"n":"temperature","u":"Ohm","v":%d}' % temperature)
    elif has & HAS_TEMPERATURE:
        records.append('{"n":"temperature","u":"Cel","v":%s}' % decimal(temperature * 625, 4))
    records.append('{"n":"wind","u":"Hz","v":%s}' % decimal(wind, 2))
    records.append('{"n":"battery","u":"mV","v":%d}' % battery)
    if dropped:
        records.append('{"n":"dropped","v":%d}' % dropped)
    return "[" + ",".join(records) + "]"
