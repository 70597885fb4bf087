// Prints what the serial board understands of each line on standard input.
#include "request.h"
#include <cstdio>
#include <iostream>
#include <string>

int main() {
  for (std::string line; std::getline(std::cin, line);) {
    const Request request = readRequest(line.c_str());
    const unsigned long long ms = request.instant.seconds * 1000ULL + request.instant.millis;
    switch (request.asked) {
    case Asked::nothing: puts("nothing"); break;
    case Asked::who: puts("who"); break;
    case Asked::time: printf("time: %llu ms\n", ms); break;
    case Asked::every: printf("every: %llu ms\n", ms); break;
    case Asked::kept: printf("kept: %u, %u\n", request.startup, request.number); break;
    }
  }
}
