# Stands in for the board's sockets: the bytes go through the process that runs the tests.
import _host


def getaddrinfo(host, port):
    return [(2, 1, 0, "", (host, port))]


class socket:
    def connect(self, address):
        error = _host.connect(address[0], address[1])
        if error:
            raise OSError(error)

    def settimeout(self, seconds):
        pass

    def setblocking(self, is_blocking):
        pass

    def write(self, octets):
        if _host.send(bytes(octets).hex()):
            raise OSError(104)
        return len(octets)

    def read(self, length):
        octets = _host.receive(length)
        return None if octets is None else bytes.fromhex(octets)

    def close(self):
        _host.close()
