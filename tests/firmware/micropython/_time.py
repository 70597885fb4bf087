# Stands in for the board's time module: the port's own waits by keeping the processor busy.
import _host
import machine

_edge_us = None  # while an interrupt runs: when its edge was


def sleep_ms(ms):
    end = _host.now() + ms
    while True:
        machine._run_interrupts()
        left = end - _host.now()
        if left <= 0:
            return
        _host.rest(min(left, 20))


def ticks_ms():
    return int(_host.now()) & 0x3FFFFFFF


def ticks_us():
    return int(_host.micros()) if _edge_us is None else _edge_us


def ticks_diff(a, b):
    return ((a - b + 0x20000000) & 0x3FFFFFFF) - 0x20000000
