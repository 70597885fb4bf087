# Stands in for the board's driver of 1-Wire thermometers.
import _host


class DS18X20:
    def __init__(self, wire):
        self._measured = 85.0  # what such a thermometer holds before it has measured

    def scan(self):
        return [b"\x28\x01\x02\x03\x04\x05\x06\x07"] if _host.has_thermometer() else []

    def convert_temp(self):
        self._measured = _host.sixteenths() / 16

    def read_temp(self, rom):
        if not _host.has_thermometer():
            raise Exception("CRC error")
        return self._measured
