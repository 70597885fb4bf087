// From a sample to a SenML pack.
#pragma once
#include "line.h"
#include "sample.h"

struct Instant {
  uint32_t seconds;
  uint16_t millis;
};

// Since the Unix epoch where the board knows the time; otherwise how long before this moment.
struct When {
  bool isUnixTime;
  Instant instant;
};

void writePack(Line& line, const Sample& sample, uint32_t startup, const When& when);

// The resistance of a thermistor to GND below SERIES_OHM, from sixteen conversions added up; 0 when it is open or short.
uint32_t thermistorOhm(uint16_t sum);
// Millivolts in tenths, from sixteen conversions added up.
uint32_t decimillivolts(uint16_t sum);
