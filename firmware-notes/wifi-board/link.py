# The way to the hub: Wi-Fi, then the broker; when either is lost, again after 1, 2, 4 … 60 seconds.
import network
import random
import settings
from mqtt import LinkLost, Mqtt, PATIENCE_MS

FIRST_WAIT_MS = 1000
LONGEST_WAIT_MS = 60000
JOINING_MS = 15000


class Link:
    def __init__(self, board, on_ask):
        self._on_ask = on_ask
        self._topic = "tussock/%s/" % board
        self._mqtt = Mqtt(board, self._topic + "link", "lost", settings.BOARD_KEY)
        self._wifi = network.WLAN(network.STA_IF)
        self._wifi.active(True)
        try:
            self._wifi.config(pm=self._wifi.PM_POWERSAVE)
        except (AttributeError, ValueError, OSError):
            pass  # a port without it uses more current, and works
        self._state = "off"
        self._since_ms = 0
        self._wait_ms = FIRST_WAIT_MS
        self._retry_ms = 0
        self._waiting = None  # (packet id, number of the message, when it was sent)

    def step(self, now_ms):
        """Moves on by one step. Returns the number of a message that is kept now, or None."""
        try:
            if self._state == "off":
                self._begin(now_ms)
            elif self._state == "joining":
                self._join(now_ms)
            elif self._state == "up":
                return self._listen(now_ms)
        except LinkLost as error:
            self._lose(error, now_ms)
        return None

    def is_free(self):
        """Whether a message may be sent: there is a link, and none is waiting to be kept."""
        return self._state == "up" and self._mqtt.is_accepted and self._waiting is None

    def send(self, number, text, now_ms):
        """number: of the message, or None for one that is not waited for."""
        try:
            packet_id = self._mqtt.publish(self._topic + "pack", text, now_ms)
        except LinkLost as error:
            self._lose(error, now_ms)
            return
        if number is not None:
            self._waiting = (packet_id, number, now_ms)

    def _begin(self, now_ms):
        if now_ms < self._retry_ms:
            return
        self._since_ms = now_ms
        self._state = "joining"
        if not self._wifi.isconnected():
            self._wifi.connect(settings.WIFI_NAME, settings.WIFI_KEY)

    def _join(self, now_ms):
        if not self._wifi.isconnected():
            if now_ms - self._since_ms > JOINING_MS:
                raise LinkLost("no Wi-Fi")
            return
        self._mqtt.connect(settings.BROKER, settings.BROKER_PORT, now_ms)
        self._since_ms = now_ms
        self._state = "up"

    def _listen(self, now_ms):
        event = self._mqtt.step(now_ms)
        if not self._mqtt.is_accepted:
            if now_ms - self._since_ms > PATIENCE_MS:
                raise LinkLost("the broker does not answer")
            return None
        if self._waiting and now_ms - self._waiting[2] > PATIENCE_MS:
            raise LinkLost("a message was not acknowledged")
        if event is None:
            return None
        if event[0] == "accepted":
            self._wait_ms = FIRST_WAIT_MS
            self._mqtt.subscribe(self._topic + "ask", now_ms)
            self._mqtt.publish(self._topic + "link", "up", now_ms, is_retained=True)
            print("connected")
        elif event[0] == "message" and event[1] == self._topic + "ask":
            self._on_ask(event[2])
        elif event[0] == "kept" and self._waiting and event[1] == self._waiting[0]:
            number = self._waiting[1]
            self._waiting = None
            return number
        return None

    def _lose(self, error, now_ms):
        print("link lost:", error)
        self._mqtt.close()
        self._state = "off"
        self._waiting = None
        # a class's boards should not all come back in the same moment
        self._retry_ms = now_ms + self._wait_ms + random.getrandbits(8)
        self._wait_ms = min(self._wait_ms * 2, LONGEST_WAIT_MS)
