// Counts the turns of a cup anemometer: one closing of the reed switch a turn, each with a burst of bounces around it.
#pragma once
#include <stdint.h>

class Cups {
public:
  // Every edge comes here. A closing counts when the line had been quiet before it, so neither the bounces of a
  // closing nor those of an opening are turns.
  void edge(bool isClosed, uint32_t nowMicros, uint32_t debounceMicros) {
    if (isClosed && (!hasEdge || nowMicros - lastEdgeMicros >= debounceMicros)) turns++;
    hasEdge = true;
    lastEdgeMicros = nowMicros;
  }

  // Turns since the last time this was asked.
  uint16_t take() {
    const uint16_t taken = turns;
    turns = 0;
    return taken;
  }

private:
  uint16_t turns = 0;
  bool hasEdge = false;
  uint32_t lastEdgeMicros = 0;
};

// Hertz in hundredths, of so many turns in so long; the highest that fits where there are more.
inline uint16_t centihertz(uint16_t turns, uint32_t millis) {
  if (millis == 0) return 0;
  const uint64_t scaled = ((uint64_t)turns * 100000UL + millis / 2) / millis;
  return scaled > 0xFFFF ? 0xFFFF : (uint16_t)scaled;
}
