// What the board knows of the time: its own count of milliseconds, and what the hub said it was at one of them.
#pragma once
#include "pack.h"

class BoardClock {
public:
  void set(const Instant& unixTime, uint32_t nowMillis) {
    atMillis = nowMillis;
    known = unixTime;
    isSet = true;
  }

  // Moves the known point along, long before the count of milliseconds comes round (49 days).
  void carry(uint32_t nowMillis) {
    if (!isSet) return;
    const uint32_t seconds = (nowMillis - atMillis) / 1000;
    if (seconds < 3600) return;
    atMillis += seconds * 1000;
    known.seconds += seconds;
  }

  When when(uint32_t takenMillis, uint32_t nowMillis) const {
    const uint32_t age = nowMillis - takenMillis;
    if (!isSet) return {false, {age / 1000, (uint16_t)(age % 1000)}};
    // the sample may have been taken before the clock was set
    const int32_t since = (int32_t)(takenMillis - atMillis) + known.millis;
    int32_t seconds = since / 1000;
    int16_t millis = (int16_t)(since % 1000);
    if (millis < 0) {
      millis += 1000;
      seconds--;
    }
    return {true, {known.seconds + (uint32_t)seconds, (uint16_t)millis}};
  }

private:
  bool isSet = false;
  Instant known = {0, 0};
  uint32_t atMillis = 0;
};
