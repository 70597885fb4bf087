#include "backlog.h"
#include "crc16.h"

// not the checksum itself: an all-zero memory must not pass for an empty backlog
static const uint16_t SEAL_MASK = 0x5A3C;

uint16_t Backlog::sealOfHead() const { return crc16Of(&head, sizeof head) ^ SEAL_MASK; }

bool Backlog::recover(uint32_t intervalMillis) {
  if (seal == sealOfHead() && head.count <= BACKLOG_ROOM && head.oldest < BACKLOG_ROOM) return true;
  head.oldest = 0;
  head.count = 0;
  head.dropped = 0;
  head.intervalMillis = intervalMillis;
  seal = sealOfHead();
  return false;
}

void Backlog::beginStartup() {
  head.dropped = 0;
  seal = sealOfHead();
}

void Backlog::add(Sample& sample) {
  if (head.count == BACKLOG_ROOM) {
    head.oldest = (uint8_t)((head.oldest + 1) % BACKLOG_ROOM);
    head.count--;
    if (head.dropped < 0xFFFF) head.dropped++;
    seal = sealOfHead();
  }
  sample.dropped = head.dropped;
  // the sample first, then the count: a reset between the two loses this sample only
  samples[(head.oldest + head.count) % BACKLOG_ROOM] = sample;
  head.count++;
  seal = sealOfHead();
}

const Sample* Backlog::first() const { return head.count == 0 ? 0 : &samples[head.oldest]; }

bool Backlog::forget(uint16_t startup, uint32_t number) {
  const Sample* sample = first();
  if (!sample || sample->startup != startup || sample->number != number) return false;
  head.oldest = (uint8_t)((head.oldest + 1) % BACKLOG_ROOM);
  head.count--;
  seal = sealOfHead();
  return true;
}

void Backlog::setInterval(uint32_t intervalMillis) {
  head.intervalMillis = intervalMillis;
  seal = sealOfHead();
}
