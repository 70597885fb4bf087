// One sample as it waits in memory: what the converters gave, 25 bytes. It becomes text only when it is sent.
#pragma once
#include <stdint.h>

enum : uint8_t { HAS_LIGHT = 1, HAS_TEMPERATURE = 2 };

struct Sample {
  uint32_t takenMillis; // on the board's own count, which goes on over a reset
  uint32_t number;      // of its message, within its start-up
  uint16_t startup;     // low half of the start-up number
  uint16_t dropped;     // messages dropped before this one: kept with it, so that a repeat says the same
  uint16_t phSum;       // sixteen conversions added up
  uint16_t moistureSum; // sixteen conversions added up
  uint16_t lightCount;
  uint16_t temperature; // 1-Wire: sixteenths of a degree, signed; thermistor: sixteen conversions added up
  uint16_t windCentihertz;
  uint16_t supplyMillivolt;
  uint8_t has;
};
