# The part of MQTT 3.1.1 that a board needs, on a socket: nothing here waits for longer than a few seconds.
import socket
import struct

KEEPALIVE_S = 30
PATIENCE_MS = 10000
LONGEST_PACKET = 1024


class LinkLost(Exception):
    pass


def _text(text):
    octets = text.encode()
    return struct.pack("!H", len(octets)) + octets


class Mqtt:
    def __init__(self, client_id, will_topic, will, key=None):
        self._client_id = client_id
        self._key = key
        self._will = _text(will_topic) + _text(will)
        self._socket = None
        self._packet_id = 0

    def connect(self, host, port, now_ms):
        self._held = b""
        self._heard_ms = self._said_ms = now_ms
        self.is_accepted = False
        self._socket = socket.socket()
        try:
            self._socket.settimeout(5)
            self._socket.connect(socket.getaddrinfo(host, port)[0][-1])
        except OSError as error:
            self.close()
            raise LinkLost("no broker: %s" % error)
        # clean session, will with QoS 1, retained; with a key, user name and password
        flags = 0x02 | 0x04 | 0x08 | 0x20 | (0xC0 if self._key else 0)
        head = _text("MQTT") + struct.pack("!BBH", 4, flags, KEEPALIVE_S)
        who = _text(self._client_id) + _text(self._key) if self._key else b""
        self._send(0x10, head + _text(self._client_id) + self._will + who, now_ms)

    def close(self):
        if self._socket:
            self._socket.close()
        self._socket = None

    def subscribe(self, topic, now_ms):
        self._send(0x82, struct.pack("!H", self._next_id()) + _text(topic) + b"\x01", now_ms)

    def publish(self, topic, message, now_ms, is_retained=False):
        """With QoS 1. Returns the id that its acknowledgement will carry."""
        packet_id = self._next_id()
        head = _text(topic) + struct.pack("!H", packet_id)
        self._send(0x32 | (1 if is_retained else 0), head + message.encode(), now_ms)
        return packet_id

    def step(self, now_ms):
        """Reads what has come: ("message", topic, text), ("kept", id) or None. Keeps the link alive."""
        if now_ms - self._said_ms > KEEPALIVE_S * 500:
            self._send(0xC0, b"", now_ms)
        if now_ms - self._heard_ms > KEEPALIVE_S * 1000:
            raise LinkLost("the broker is silent")
        packet = self._take()
        if packet is None:
            self._fill(now_ms)
            packet = self._take()
        return None if packet is None else self._understand(packet, now_ms)

    def _understand(self, packet, now_ms):
        kind, body = packet
        if kind & 0xF0 == 0x20:
            if len(body) < 2 or body[1] != 0:
                raise LinkLost("the broker refuses")
            self.is_accepted = True
            return ("accepted", 0)
        if kind & 0xF0 == 0x40:
            return ("kept", struct.unpack("!H", body[:2])[0])
        if kind & 0xF0 == 0x30:
            end = 2 + struct.unpack("!H", body[:2])[0]
            topic, rest = body[2:end], body[end:]
            if kind & 0x06:
                self._send(0x40, rest[:2], now_ms)
                rest = rest[2:]
            return ("message", topic.decode(), rest.decode())
        return ("other", kind)

    def _next_id(self):
        self._packet_id = self._packet_id % 65535 + 1
        return self._packet_id

    def _send(self, kind, body, now_ms):
        length, left = bytearray(), len(body)
        while True:
            length.append(left & 0x7F | (0x80 if left > 0x7F else 0))
            left >>= 7
            if not left:
                break
        try:
            self._socket.settimeout(5)
            self._socket.write(bytes([kind]) + bytes(length) + body)
        except OSError as error:
            raise LinkLost("sending: %s" % error)
        self._said_ms = now_ms

    def _fill(self, now_ms):
        try:
            self._socket.setblocking(False)
            more = self._socket.read(256)
        except OSError as error:
            raise LinkLost("receiving: %s" % error)
        if more is None:
            return
        if not more:
            raise LinkLost("the broker has closed the link")
        self._heard_ms = now_ms
        self._held += more

    def _take(self):
        """One whole packet of what is held, or None."""
        length = shift = 0
        for at in range(1, min(5, len(self._held))):
            length |= (self._held[at] & 0x7F) << shift
            shift += 7
            if not self._held[at] & 0x80:
                break
        else:
            return None
        if length > LONGEST_PACKET:
            raise LinkLost("a packet of %d bytes" % length)
        start = at + 1
        if len(self._held) < start + length:
            return None
        packet = (self._held[0], self._held[start : start + length])
        self._held = self._held[start + length :]
        return packet
