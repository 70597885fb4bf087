# What the hub asks for: `who`, `time SECONDS`, `every SECONDS`. Anything else is None.


def milliseconds(text):
    whole, _, part = text.partition(".")
    if not whole.isdigit() or (part and not part.isdigit()) or text.endswith("."):
        return None
    return int(whole) * 1000 + int((part + "000")[:3])


def read(text):
    words = text.split(" ")
    if words == ["who"]:
        return ("who", 0)
    if len(words) == 2 and words[0] in ("time", "every"):
        ms = milliseconds(words[1])
        if ms is not None:
            return (words[0], ms)
    return None
