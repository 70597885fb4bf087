# Stands in for the board's machine module: pins, converter, I2C and watchdog, as the tests set them.
import _host


class Pin:
    IN = 0
    OUT = 1
    PULL_UP = 1
    IRQ_RISING = 1
    IRQ_FALLING = 2

    def __init__(self, number, mode=-1, pull=-1):
        self.number = number
        self._level = 1

    def irq(self, handler, trigger):
        _handlers[self.number] = (self, handler, trigger)

    def value(self):
        return self._level


_handlers = {}


def _run_interrupts():
    import time

    for number in _handlers:
        pin, handler, trigger = _handlers[number]
        edges = _host.take_edges(number)
        for edge in edges.split(",") if edges else ():
            level, us = edge.split(":")
            pin._level = int(level)
            if trigger & (Pin.IRQ_RISING if pin._level else Pin.IRQ_FALLING):
                time._edge_us = int(us)
                handler(pin)
                time._edge_us = None


class ADC:
    ATTN_11DB = 3

    def __init__(self, pin, atten=None):
        self._pin = pin.number

    def read_uv(self):
        return _host.microvolt(self._pin)


class I2C:
    def __init__(self, number, scl, sda, freq):
        pass

    def writeto(self, address, octets):
        if not _host.i2c_write(address, octets[0]):
            raise OSError(19)

    def readfrom(self, address, length):
        count = _host.i2c_read(address)
        if count < 0:
            raise OSError(19)
        return bytes([count >> 8, count & 0xFF][:length])


class WDT:
    def __init__(self, timeout):
        self._timeout = timeout

    def feed(self):
        _host.feed(self._timeout)
