#include "startup-slots.h"
#include "crc8.h"

// never the check of three zero bytes or three 0xFF ones, so that empty memory is no number
static uint8_t checkOf(const uint8_t* number) { return crc8Of(number, 3) ^ 0xA5; }

uint32_t nextStartup(const SlotMemory& memory) {
  uint32_t highest = 0;
  uint8_t slot = STARTUP_SLOTS - 1;
  for (uint8_t at = 0; at < STARTUP_SLOTS; at++) {
    uint8_t bytes[4];
    for (uint8_t i = 0; i < 4; i++) bytes[i] = memory.read((uint16_t)(at * 4 + i));
    if (bytes[3] != checkOf(bytes)) continue;
    const uint32_t number = bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16;
    if (number < highest) continue;
    highest = number;
    slot = at;
  }
  const uint32_t next = highest == LAST_STARTUP ? 1 : highest + 1;
  // at the very end the old numbers must go, or they would be the highest again
  if (next == 1)
    for (uint16_t at = 0; at < STARTUP_SLOTS * 4; at++) memory.write(at, 0xFF);
  const uint16_t to = (uint16_t)((slot + 1) % STARTUP_SLOTS * 4);
  const uint8_t bytes[3] = {(uint8_t)next, (uint8_t)(next >> 8), (uint8_t)(next >> 16)};
  for (uint8_t i = 0; i < 3; i++) memory.write((uint16_t)(to + i), bytes[i]);
  memory.write((uint16_t)(to + 3), checkOf(bytes));
  return next;
}
