"""What a class would write in an afternoon: a subscriber that puts each signal into SQLite.

Arguments: port, file, seconds between commits (0: each message is committed before it is acknowledged).
"""
import json
import sqlite3
import sys
import time

import paho.mqtt.client as mqtt

port, path, every = int(sys.argv[1]), sys.argv[2], float(sys.argv[3])
database = sqlite3.connect(path, isolation_level=None)
database.execute("PRAGMA journal_mode = WAL")
database.execute("CREATE TABLE reading (board TEXT, channel TEXT, t REAL, signal REAL, unit TEXT)")
count = 0
committed = time.monotonic()


def on_connect(client, *_):
    client.subscribe("tussock/+/pack", qos=1)


def on_subscribe(*_):
    print("ready", flush=True)


def on_message(client, _, message):
    global count, committed
    if not database.in_transaction:
        database.execute("BEGIN")
    pack = json.loads(message.payload)
    board, now = pack[0]["bn"].strip("/"), time.time()
    rows = [(board, r["n"], now + r.get("t", 0), r["v"], r["u"]) for r in pack if "u" in r]
    database.executemany("INSERT INTO reading VALUES (?, ?, ?, ?, ?)", rows)
    count += 1
    if time.monotonic() - committed >= every or count == int(sys.argv[4]):
        database.execute("COMMIT")
        committed = time.monotonic()
    if count == int(sys.argv[4]):
        print("done", flush=True)


client = mqtt.Client()
client.on_connect, client.on_subscribe, client.on_message = on_connect, on_subscribe, on_message
client.connect("127.0.0.1", port)
client.loop_forever()
