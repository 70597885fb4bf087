#include "request.h"
#include <string.h>

// Reads a whole number and moves on; false when there is none or it does not fit.
static bool readWhole(const char*& at, uint32_t& number) {
  if (*at < '0' || *at > '9') return false;
  number = 0;
  for (; *at >= '0' && *at <= '9'; at++) {
    const uint8_t digit = (uint8_t)(*at - '0');
    if (number > (0xFFFFFFFFUL - digit) / 10) return false;
    number = number * 10 + digit;
  }
  return true;
}

// Seconds with or without decimals; those beyond the third are left out.
static bool readSeconds(const char*& at, Instant& instant) {
  if (!readWhole(at, instant.seconds)) return false;
  instant.millis = 0;
  if (*at != '.') return true;
  at++;
  if (*at < '0' || *at > '9') return false;
  for (uint16_t worth = 100; *at >= '0' && *at <= '9'; at++, worth /= 10) instant.millis += (uint16_t)(worth * (*at - '0'));
  return true;
}

static bool begins(const char*& at, const char* word) {
  const uint8_t length = (uint8_t)strlen(word);
  if (strncmp(at, word, length) != 0) return false;
  at += length;
  return true;
}

Request readRequest(const char* line) {
  Request request = {Asked::nothing, {0, 0}, 0, 0};
  const char* at = line;
  Asked asked = Asked::nothing;
  if (begins(at, "who")) asked = Asked::who;
  else if (begins(at, "time ") && readSeconds(at, request.instant)) asked = Asked::time;
  else if (begins(at, "every ") && readSeconds(at, request.instant)) asked = Asked::every;
  else if (begins(at, "kept ") && readWhole(at, request.startup) && *at++ == ' ' && readWhole(at, request.number))
    asked = Asked::kept;
  if (*at == 0) request.asked = asked;
  return request;
}

const char* RequestLine::take(char c) {
  if (c == '\r') return 0;
  if (c != '\n') {
    if (length < ROOM) held[length++] = c;
    else isTooLong = true;
    return 0;
  }
  held[length] = 0;
  length = 0;
  const bool isWhole = !isTooLong;
  isTooLong = false;
  return isWhole ? held : 0;
}
