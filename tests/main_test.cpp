// The entry point of every test program, compiled once: Catch2 takes longer than most tests.

#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
