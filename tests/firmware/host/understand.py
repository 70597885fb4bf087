# Prints what the Wi-Fi board understands of each line of lines.txt.
import request

with open("/lines.txt") as lines:
    for line in lines:
        asked = request.read(line.rstrip("\n"))
        print("nothing" if asked is None else "who" if asked[0] == "who" else "%s: %d ms" % asked)
