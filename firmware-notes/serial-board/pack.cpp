#include "pack.h"
#include "settings.h"

// the converter gives 1024ths of its reference, rounded down: on average half of one is missing
static const uint32_t FULL_SUM = 16UL * 1024;
static const uint32_t HALF_COUNT = 8;

uint32_t decimillivolts(uint16_t sum) {
  return ((sum + HALF_COUNT) * (REFERENCE_MILLIVOLT * 10) + FULL_SUM / 2) / FULL_SUM;
}

uint32_t thermistorOhm(uint16_t sum) {
  const uint16_t highest = 16 * 1023;
  if (sum == 0 || sum >= highest) return 0;
  const uint32_t below = sum + HALF_COUNT;
  const uint32_t above = FULL_SUM - below;
  return (uint32_t)(((uint64_t)SERIES_OHM * below + above / 2) / above);
}

static void writeTemperature(Line& line, const Sample& sample) {
#if HAS_THERMISTOR
  const uint32_t ohm = thermistorOhm(sample.temperature);
  if (ohm == 0) return;
  line.text(PSTR("},{\"n\":\"temperature\",\"u\":\"Ohm\",\"v\":"));
  line.whole(ohm);
#else
  if (!(sample.has & HAS_TEMPERATURE)) return;
  line.text(PSTR("},{\"n\":\"temperature\",\"u\":\"Cel\",\"v\":"));
  line.signedSixteenths((int16_t)sample.temperature);
#endif
}

void writePack(Line& line, const Sample& sample, uint32_t startup, const When& when) {
  line.text(PSTR("[{\"bn\":\"" BOARD_NAME "/\",\"bt\":"));
  const Instant& at = when.instant;
  if (!when.isUnixTime && (at.seconds > 0 || at.millis > 0)) line.text(PSTR("-"));
  line.millis(at.seconds, at.millis);
  line.text(PSTR(",\"n\":\"startup\",\"v\":"));
  line.whole(startup);
  line.text(PSTR("},{\"n\":\"message\",\"v\":"));
  line.whole(sample.number);
  line.text(PSTR("},{\"n\":\"ph\",\"u\":\"mV\",\"v\":"));
  line.decimal(decimillivolts(sample.phSum), 1);
  line.text(PSTR("},{\"n\":\"moisture\",\"u\":\"count\",\"v\":"));
  line.sixteenths(sample.moistureSum);
  if (sample.has & HAS_LIGHT) {
    line.text(PSTR("},{\"n\":\"light\",\"u\":\"count\",\"v\":"));
    line.whole(sample.lightCount);
  }
  writeTemperature(line, sample);
  line.text(PSTR("},{\"n\":\"wind\",\"u\":\"Hz\",\"v\":"));
  line.decimal(sample.windCentihertz, 2);
  line.text(PSTR("},{\"n\":\"battery\",\"u\":\"mV\",\"v\":"));
  line.whole(sample.supplyMillivolt);
  if (sample.dropped > 0) {
    line.text(PSTR("},{\"n\":\"dropped\",\"v\":"));
    line.whole(sample.dropped);
  }
  line.text(PSTR("}]"));
  line.end();
}
