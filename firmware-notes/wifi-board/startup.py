# The number of this start-up: a counter in the board's own flash, one small write a start-up.
import os
import random

FILE = "startup.txt"


def next_startup():
    try:
        with open(FILE) as file:
            number = int(file.read()) + 1
    except (OSError, ValueError):
        # none yet, or unreadable: begin where no earlier count is likely to have been
        number = random.getrandbits(30)
    # written aside and moved, so that a loss of power leaves the old one or the new one
    with open(FILE + ".new", "w") as file:
        file.write(str(number))
    os.rename(FILE + ".new", FILE)
    return number
