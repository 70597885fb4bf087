# The five probes and the battery, in the units their electronics give.
import time
import machine
import settings
from sample import HAS_LIGHT, HAS_TEMPERATURE, IS_OHM

MEASURING_MS = 800
MEASURE_ONCE_FINE = b"\x20"


class Cups:
    """Counts closings of the reed switch; a line that was not quiet before one was bouncing."""

    def __init__(self, pin, debounce_us):
        self._debounce_us = debounce_us
        self._last_us = time.ticks_us()
        self.turns = 0
        self._pin = machine.Pin(pin, machine.Pin.IN, machine.Pin.PULL_UP)
        self._pin.irq(self._edge, machine.Pin.IRQ_FALLING | machine.Pin.IRQ_RISING)

    def _edge(self, pin):
        now = time.ticks_us()
        if pin.value() == 0 and time.ticks_diff(now, self._last_us) >= self._debounce_us:
            self.turns += 1
        self._last_us = now

    def take(self):
        turns = self.turns
        self.turns -= turns
        return turns


class Input:
    """An analogue input, as the port has calibrated it where it has; tenths of a millivolt."""

    def __init__(self, pin):
        self._adc = machine.ADC(machine.Pin(pin), atten=machine.ADC.ATTN_11DB)

    def decimillivolt(self):
        total = 0
        for _ in range(16):
            total += self._adc.read_uv()
        return (total + 800) // 1600


class Thermometer:
    def __init__(self, pin):
        import ds18x20
        import onewire

        self._bus = ds18x20.DS18X20(onewire.OneWire(machine.Pin(pin)))
        self._found = []

    def start(self):
        # looked for each time: one that was plugged in later is found
        self._found = self._bus.scan()
        if self._found:
            self._bus.convert_temp()

    def sixteenths(self):
        if not self._found:
            return None
        try:
            celsius = self._bus.read_temp(self._found[0])
        except Exception:  # a checksum that does not fit, or nobody there any more
            return None
        return None if celsius is None else round(celsius * 16)


class Light:
    def __init__(self):
        pins = {"scl": machine.Pin(settings.SCL_PIN), "sda": machine.Pin(settings.SDA_PIN)}
        self._bus = machine.I2C(0, freq=100000, **pins)

    def start(self):
        try:
            self._bus.writeto(settings.LIGHT_ADDRESS, MEASURE_ONCE_FINE)
        except OSError:
            pass  # said by the reading that fails

    def count(self):
        try:
            high, low = self._bus.readfrom(settings.LIGHT_ADDRESS, 2)
        except OSError:
            return None
        return high << 8 | low


def thermistor_ohm(decimillivolt, series_ohm, supply_millivolt):
    above = supply_millivolt * 10 - decimillivolt
    if decimillivolt <= 0 or above <= 0:
        return None  # short, or open
    return (series_ohm * decimillivolt + above // 2) // above


class Probes:
    def __init__(self, now_ms):
        self._ph = Input(settings.PH_PIN)
        self._moisture = Input(settings.MOISTURE_PIN)
        self._battery = Input(settings.BATTERY_PIN)
        self._light = Light()
        self._cups = Cups(settings.CUPS_PIN, settings.DEBOUNCE_US)
        self._since_ms = now_ms
        self._thermistor = self._thermometer = None
        if settings.THERMISTOR_PIN is None:
            self._thermometer = Thermometer(settings.THERMOMETER_PIN)
        else:
            self._thermistor = Input(settings.THERMISTOR_PIN)
        self.missing = []

    def start(self):
        """Begins what takes its time; read() comes 800 ms later."""
        self._light.start()
        if self._thermometer:
            self._thermometer.start()

    def read(self, now_ms):
        """Signals in the order of sample.FORMAT."""
        has = 0
        light = self._light.count()
        if light is not None:
            has |= HAS_LIGHT
        if self._thermometer:
            temperature = self._thermometer.sixteenths()
            kind = HAS_TEMPERATURE
        else:
            temperature = thermistor_ohm(
                self._thermistor.decimillivolt(), settings.SERIES_OHM, settings.SUPPLY_MILLIVOLT
            )
            kind = HAS_TEMPERATURE | IS_OHM
        if temperature is not None:
            has |= kind
        self.missing = [name for name, value in (("light", light), ("temperature", temperature)) if value is None]
        span_ms = max(1, now_ms - self._since_ms)
        self._since_ms = now_ms
        centihertz = (self._cups.take() * 100000 + span_ms // 2) // span_ms
        return (
            self._ph.decimillivolt(),
            self._moisture.decimillivolt(),
            (self._battery.decimillivolt() * 2 + 5) // 10,
            light or 0,
            temperature or 0,
            centihertz,
            has,
        )
