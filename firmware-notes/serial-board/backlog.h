// Samples that wait for the hub's `kept`, oldest first, in a part of memory that a reset leaves alone: most boards
// are reset when a program opens their port, which is the very moment when a backlog is wanted.
#pragma once
#include "sample.h"

const uint8_t BACKLOG_ROOM = 48;

struct Backlog {
  Sample samples[BACKLOG_ROOM];
  struct Head {
    uint8_t oldest;
    uint8_t count;
    uint16_t dropped;
    uint32_t intervalMillis;
  } head;
  uint16_t seal;

  // After a reset what was kept is taken over; after a loss of power it is noise, and begun afresh.
  // Returns whether it was taken over.
  bool recover(uint32_t intervalMillis);
  void beginStartup();
  void add(Sample& sample);
  const Sample* first() const;
  // Forgets the oldest sample when it is this one.
  bool forget(uint16_t startup, uint32_t number);
  void setInterval(uint32_t intervalMillis);

private:
  uint16_t sealOfHead() const;
};
