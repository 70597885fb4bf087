# What differs from board to board.
BOARD_NAME = "rush-1"  # letters, digits, dot, dash, underscore; another one for each board

WIFI_NAME = "class-net"
WIFI_KEY = "change me"
BROKER = "192.168.4.2"  # the hub's address on the hotspot; the hub needs --mqtt-host 0.0.0.0
BROKER_PORT = 1883
BOARD_KEY = None  # made for this board on the page Boards, such as "k3fm9a-…"; needed on the hub's own network

INTERVAL_MS = 10000  # between samples, until the hub asks for another
ROOM = 720  # messages that wait while the link is lost: two hours at one in ten seconds

PH_PIN = 34  # output of the pH amplifier
MOISTURE_PIN = 35  # output of the moisture probe
BATTERY_PIN = 33  # middle of two equal resistors across the battery
THERMISTOR_PIN = None  # or 32: between the thermistor (to GND) and its resistor (to 3V3)
SERIES_OHM = 10000
SUPPLY_MILLIVOLT = 3300  # what the thermistor's resistor hangs on
THERMOMETER_PIN = 4  # data line of the 1-Wire thermometer
SDA_PIN = 21
SCL_PIN = 22
LIGHT_ADDRESS = 0x23
CUPS_PIN = 27  # reed switch of the cups, to GND
DEBOUNCE_US = 4000
