// What the hub says, a line at a time.
#pragma once
#include "pack.h"
#include <stdint.h>

enum class Asked : uint8_t { nothing, who, time, every, kept };

struct Request {
  Asked asked;
  Instant instant;  // of `time` and `every`
  uint32_t startup; // of `kept`
  uint32_t number;  // of `kept`
};

// Reads one line without its end. What is not understood wholly is nothing.
Request readRequest(const char* line);

// Gathers lines from single characters; a line longer than its room is left out as a whole.
class RequestLine {
public:
  // Returns the line when this character ends it, otherwise null.
  const char* take(char c);

private:
  static const uint8_t ROOM = 40;
  char held[ROOM + 1];
  uint8_t length = 0;
  bool isTooLong = false;
};
