# Stands in for the board's Wi-Fi, which the tests take away and give back.
import _host

STA_IF = 0


class WLAN:
    PM_POWERSAVE = 2

    def __init__(self, interface):
        self._is_asked = False

    def active(self, is_on):
        return is_on

    def config(self, **settings):
        pass

    def connect(self, name, key):
        self._is_asked = True

    def isconnected(self):
        if not _host.has_wifi():
            self._is_asked = False
        return self._is_asked
