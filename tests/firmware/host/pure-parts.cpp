// The parts of the serial board that need no board, run on this computer. Each check that fails says where.
#include "backlog.h"
#include "board-clock.h"
#include "carried-clock.h"
#include "crc16.h"
#include "crc8.h"
#include "cups.h"
#include "pack.h"
#include "request.h"
#include "sending.h"
#include "startup-slots.h"
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

static int checks = 0;
#define CHECK(claim)                                                                                                   \
  do {                                                                                                                 \
    checks++;                                                                                                          \
    if (!(claim)) {                                                                                                    \
      printf("%s:%d: not so: %s\n", __FILE__, __LINE__, #claim);                                                       \
      exit(1);                                                                                                         \
    }                                                                                                                  \
  } while (0)

static std::string written;
static void put(char c) { written += c; }

static std::string text(void (*write)(Line&)) {
  written.clear();
  Line line(put);
  write(line);
  return written;
}

static void checksums() {
  CHECK(crc16Of("123456789", 9) == 0x29B1); // the catalogue's check value
  CHECK(crc16Of("", 0) == 0xFFFF);
  CHECK(crc8Of((const uint8_t*)"123456789", 9) == 0xA1); // CRC-8/MAXIM-DOW
  const uint8_t memory[9] = {0x50, 0x05, 0x4B, 0x46, 0x7F, 0xFF, 0x0C, 0x10, 0x1C}; // 85 degrees, as such thermometers start
  CHECK(crc8Of(memory, 8) == memory[8]);
}

static void numbers() {
  CHECK(text([](Line& line) { line.whole(0); }) == "0");
  CHECK(text([](Line& line) { line.whole(4294967295UL); }) == "4294967295");
  CHECK(text([](Line& line) { line.decimal(5, 1); }) == "0.5");
  CHECK(text([](Line& line) { line.decimal(0, 2); }) == "0.00");
  CHECK(text([](Line& line) { line.decimal(25000, 1); }) == "2500.0");
  CHECK(text([](Line& line) { line.signedSixteenths(-1); }) == "-0.0625");
  CHECK(text([](Line& line) { line.signedSixteenths(-84); }) == "-5.2500");
  CHECK(text([](Line& line) { line.signedSixteenths(2000); }) == "125.0000");
  CHECK(text([](Line& line) { line.signedSixteenths(-32768); }) == "-2048.0000");
  CHECK(text([](Line& line) { line.sixteenths(65535); }) == "4095.9375");
  CHECK(text([](Line& line) { line.millis(1780000000UL, 7); }) == "1780000000.007");
  CHECK(text([](Line& line) {
          line.text("123456789");
          line.end();
        }) == "123456789#29B1\r\n");
}

static void packs() {
  CHECK(decimillivolts(0) == 24);           // half a count of 4.9 mV
  CHECK(decimillivolts(16 * 512) == 25024); // half scale and half a count
  CHECK(decimillivolts(16 * 1023) == 49976);
  CHECK(thermistorOhm(0) == 0);
  CHECK(thermistorOhm(16 * 1023) == 0);
  CHECK(thermistorOhm(16 * 512 - 8) == 10000);
  Sample sample = {};
  sample.number = 42;
  sample.phSum = 16 * 512;
  sample.moistureSum = 16 * 300 + 1;
  sample.lightCount = 65535;
  sample.temperature = (uint16_t)-84;
  sample.windCentihertz = 1234;
  sample.supplyMillivolt = 5006;
  sample.dropped = 3;
  sample.has = HAS_LIGHT | HAS_TEMPERATURE;
  written.clear();
  {
    Line line(put);
    writePack(line, sample, 7, {false, {12, 500}});
  }
  CHECK(written.find("[{\"bn\":\"sedge-1/\",\"bt\":-12.500,\"n\":\"startup\",\"v\":7},{\"n\":\"message\",\"v\":42},"
                     "{\"n\":\"ph\",\"u\":\"mV\",\"v\":2502.4},{\"n\":\"moisture\",\"u\":\"count\",\"v\":300.0625},"
                     "{\"n\":\"light\",\"u\":\"count\",\"v\":65535},{\"n\":\"temperature\",\"u\":\"Cel\",\"v\":-5.2500},"
                     "{\"n\":\"wind\",\"u\":\"Hz\",\"v\":12.34},{\"n\":\"battery\",\"u\":\"mV\",\"v\":5006},"
                     "{\"n\":\"dropped\",\"v\":3}]#") == 0);
  sample.has = 0;
  sample.dropped = 0;
  written.clear();
  Line line(put);
  writePack(line, sample, 7, {true, {1780000000UL, 250}});
  CHECK(written.find("\"bt\":1780000000.250,") != std::string::npos);
  CHECK(written.find("light") == std::string::npos);
  CHECK(written.find("temperature") == std::string::npos);
  CHECK(written.find("dropped") == std::string::npos);
}

static Asked askedBy(const char* line) { return readRequest(line).asked; }

static void requests() {
  CHECK(askedBy("who") == Asked::who);
  CHECK(askedBy("time 1780000000.250") == Asked::time);
  CHECK(readRequest("time 1780000000.250").instant.seconds == 1780000000UL);
  CHECK(readRequest("time 1780000000.250").instant.millis == 250);
  CHECK(readRequest("every 2.5").instant.millis == 500);
  CHECK(readRequest("every 2.0629").instant.millis == 62);
  CHECK(readRequest("every 30").instant.seconds == 30);
  CHECK(readRequest("kept 7 4294967295").number == 4294967295UL);
  CHECK(readRequest("kept 7 42").startup == 7);
  const char* const unknown[] = {"", "Who", "who?", "whoever", "time", "time ", "time x", "time 1.", "time 1 2", "every",
                                 "every -3", "every 4294967296", "every 99999999999999", "kept", "kept 7", "kept 7 ",
                                 "kept 7 42 1", "kept  7 42", "kept 7,42", "sing"};
  for (const char* line : unknown) CHECK(askedBy(line) == Asked::nothing);

  RequestLine gathered;
  std::string heard;
  const std::string said = "who\r\n\n" + std::string(41, 'x') + "\nevery 2\n" + std::string(40, 'y') + "\n";
  for (char c : said)
    if (const char* line = gathered.take(c)) heard += std::string(line) + "|";
  CHECK(heard == "who||every 2|" + std::string(40, 'y') + "|");
}

static void cupsCounting() {
  Cups cups;
  const uint32_t quiet = 4000;
  uint32_t at = 0xFFFFF000UL; // across the turn-round of the microseconds
  for (int turn = 0; turn < 10; turn++) {
    for (int bounce = 0; bounce < 7; bounce++) cups.edge(bounce % 2 == 0, at + (uint32_t)bounce * 300, quiet);
    at += 40000;
    for (int bounce = 0; bounce < 7; bounce++) cups.edge(bounce % 2 == 1, at + (uint32_t)bounce * 300, quiet);
    at += 40000;
  }
  CHECK(cups.take() == 10);
  CHECK(cups.take() == 0);
  CHECK(centihertz(12, 1000) == 1200);
  CHECK(centihertz(1, 3000) == 33);
  CHECK(centihertz(0, 1000) == 0);
  CHECK(centihertz(5, 0) == 0);
  CHECK(centihertz(65535, 1) == 65535);
}

static void keepingSamples() {
  Backlog backlog;
  memset(&backlog, 0, sizeof backlog);
  CHECK(!backlog.recover(10000)); // all zero is no backlog
  CHECK(backlog.first() == 0 && backlog.head.intervalMillis == 10000);
  for (uint32_t number = 1; number <= BACKLOG_ROOM + 3; number++) {
    Sample sample = {};
    sample.startup = 7;
    sample.number = number;
    backlog.add(sample);
  }
  CHECK(backlog.head.count == BACKLOG_ROOM && backlog.head.dropped == 3);
  CHECK(backlog.first()->number == 4 && backlog.first()->dropped == 0);
  CHECK(!backlog.forget(7, 5) && !backlog.forget(8, 4) && backlog.forget(7, 4));
  CHECK(backlog.first()->number == 5);
  backlog.setInterval(2500);
  CHECK(backlog.recover(10000)); // as after a reset
  CHECK(backlog.head.intervalMillis == 2500 && backlog.head.count == BACKLOG_ROOM - 1);
  backlog.beginStartup();
  CHECK(backlog.head.dropped == 0 && backlog.recover(10000));
  uint32_t last = 0;
  while (const Sample* sample = backlog.first()) {
    CHECK(sample->number > last);
    last = sample->number;
    CHECK(backlog.forget(sample->startup, sample->number));
  }
  CHECK(last == BACKLOG_ROOM + 3);
  for (unsigned byte = 0; byte < sizeof backlog.head; byte++)
    for (int bit = 0; bit < 8; bit++) { // one wrong bit is enough not to believe it
      Backlog noisy = backlog;
      ((uint8_t*)&noisy.head)[byte] ^= (uint8_t)(1 << bit);
      CHECK(!noisy.recover(10000));
    }
}

static uint8_t eeprom[STARTUP_SLOTS * 4];
static unsigned long writes[STARTUP_SLOTS * 4];
static int writesLeft = -1;
static uint8_t readCell(uint16_t at) { return eeprom[at]; }
static void writeCell(uint16_t at, uint8_t byte) {
  if (writesLeft == 0) return; // the power is gone
  if (writesLeft > 0) writesLeft--;
  if (eeprom[at] != byte) writes[at]++;
  eeprom[at] = byte;
}

static void countingStartups() {
  const SlotMemory memory = {readCell, writeCell};
  for (int fill : {0xFF, 0x00}) {
    memset(eeprom, fill, sizeof eeprom);
    CHECK(nextStartup(memory) == 1);
    CHECK(nextStartup(memory) == 2);
  }
  memset(eeprom, 0xFF, sizeof eeprom);
  memset(writes, 0, sizeof writes);
  for (uint32_t number = 1; number <= 3200; number++) CHECK(nextStartup(memory) == number);
  for (unsigned long count : writes) CHECK(count <= 101); // evenly over all slots
  for (int cut = 0; cut < 4; cut++) { // power lost after so many of the four bytes: never a number used before
    writesLeft = cut;
    const uint32_t claimed = nextStartup(memory);
    writesLeft = -1;
    CHECK(nextStartup(memory) == claimed);
  }
  memset(eeprom, 0xFF, sizeof eeprom);
  const uint8_t nearlyLast[3] = {0xFE, 0xFF, 0xFF};
  memcpy(eeprom, nearlyLast, 3);
  eeprom[3] = crc8Of(nearlyLast, 3) ^ 0xA5;
  CHECK(nextStartup(memory) == LAST_STARTUP);
  CHECK(nextStartup(memory) == 1);
  CHECK(nextStartup(memory) == 2);
}

static void tellingTime() {
  BoardClock clock;
  When when = clock.when(1000, 13500);
  CHECK(!when.isUnixTime && when.instant.seconds == 12 && when.instant.millis == 500);
  CHECK(clock.when(0xFFFFFF00UL, 0x100).instant.millis == 512); // across the turn-round
  clock.set({1780000000UL, 250}, 20000);
  when = clock.when(21000, 22000);
  CHECK(when.isUnixTime && when.instant.seconds == 1780000001UL && when.instant.millis == 250);
  when = clock.when(19000, 22000); // measured before the clock was set
  CHECK(when.instant.seconds == 1779999999UL && when.instant.millis == 250);
  when = clock.when(19600, 22000);
  CHECK(when.instant.seconds == 1779999999UL && when.instant.millis == 850);
  uint32_t now = 20000;
  for (int hour = 1; hour <= 24 * 120; hour++) clock.carry(now += 3600000UL); // four months
  CHECK(clock.when(now, now).instant.seconds == 1780000000UL + 24UL * 120 * 3600);

  CarriedClock carried = {0x12345678, 0x12345678, 0};
  carried.begin(false); // after a loss of power: noise
  CHECK(carried.now(5) == 5);
  carried.now(70000);
  carried.begin(false);
  CHECK(carried.now(20) == 70000 + BOOT_MILLIS + 20);
  carried.begin(true);
  CHECK(carried.now(0) == 70020 + 2 * BOOT_MILLIS + WATCHDOG_MILLIS);
}

static void sendingAgain() {
  Sending sending;
  uint32_t now = 0xFFFFFFF0UL, waits[8];
  for (uint32_t& wait : waits) {
    CHECK(sending.isDue(now));
    sending.sent(now);
    for (wait = 0; !sending.isDue(now + wait); wait += 1000) CHECK(wait < 100000);
    now += wait;
  }
  const uint32_t expected[8] = {2000, 4000, 8000, 16000, 32000, 32000, 32000, 32000};
  CHECK(memcmp(waits, expected, sizeof waits) == 0);
  sending.sent(now);
  sending.hubIsThere();
  CHECK(!sending.isDue(now + 1999) && sending.isDue(now + 2000));
  sending.next();
  CHECK(sending.isDue(now));
}

int main() {
  checksums();
  numbers();
  packs();
  requests();
  cupsCounting();
  keepingSamples();
  countingStartups();
  tellingTime();
  sendingAgain();
  printf("%d checks\n", checks);
  return 0;
}
