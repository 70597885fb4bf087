// Milliseconds since the board last had power: goes on over a reset, so that what waits in the backlog keeps its age.
#pragma once
#include "settings.h"
#include <stdint.h>

// How long the watchdog had waited before it reset the board.
const uint32_t WATCHDOG_MILLIS = 8000;

struct CarriedClock {
  uint32_t last;
  uint32_t lastInverted; // tells a count that was kept from the noise after a loss of power
  uint32_t carried;

  void begin(bool isByWatchdog) {
    carried = last == ~lastInverted ? last + BOOT_MILLIS + (isByWatchdog ? WATCHDOG_MILLIS : 0) : 0;
  }

  uint32_t now(uint32_t sinceReset) {
    last = carried + sinceReset;
    lastInverted = ~last;
    return last;
  }
};
