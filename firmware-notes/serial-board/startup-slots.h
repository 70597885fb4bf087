// The number of this start-up, kept in EEPROM. A cell bears about 100 000 writes, so the number walks through 32
// slots: three million start-ups. Each slot has a check of its own: a write cut short by a loss of power is not believed.
#pragma once
#include <stdint.h>

const uint8_t STARTUP_SLOTS = 32;
const uint32_t LAST_STARTUP = 0xFFFFFFUL;

struct SlotMemory {
  uint8_t (*read)(uint16_t at);
  void (*write)(uint16_t at, uint8_t byte);
};

// One more than the highest number found; written down before it is returned.
uint32_t nextStartup(const SlotMemory& memory);
