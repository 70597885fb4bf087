// When to send the oldest sample: at once, then again after 2, 4, 8 … 32 seconds without an answer.
#pragma once
#include <stdint.h>

class Sending {
public:
  bool isDue(uint32_t nowMillis) const { return !isWaiting || nowMillis - sentMillis >= waitMillis; }

  void sent(uint32_t nowMillis) {
    waitMillis = !isWaiting ? FIRST_WAIT : waitMillis < LONGEST_WAIT ? waitMillis * 2 : LONGEST_WAIT;
    isWaiting = true;
    sentMillis = nowMillis;
  }

  // The sample was kept, or dropped: the next one goes at once.
  void next() { isWaiting = false; }

  // The hub has been heard: what waits for an answer need not wait for long.
  void hubIsThere() {
    if (isWaiting) waitMillis = FIRST_WAIT;
  }

private:
  static const uint32_t FIRST_WAIT = 2000;
  static const uint32_t LONGEST_WAIT = 32000;
  bool isWaiting = false;
  uint32_t sentMillis = 0;
  uint32_t waitMillis = FIRST_WAIT;
};
