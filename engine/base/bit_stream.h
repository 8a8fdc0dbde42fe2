// A row of bits written and read in text that forums and chat leave alone, six bits to a letter (RFC 4648,
// the alphabet for addresses).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

class BitWriter {
  public:
    void bits(std::uint64_t value, int count); // the lowest `count`, highest of them first; at most 64
    void flag(bool value) { bits(value ? 1 : 0, 1); }
    // Small ones short: groups of four bits, each with one that says whether more follow.
    void count(std::uint64_t value);
    // Exactly, decimals of few digits short.
    void number(double value);
    void text(std::string_view value);
    std::string letters() const; // filled up with zeros

  private:
    std::vector<bool> bits_;
};

// Reading past the end, or what no writer writes, sets `failed`; then all that follows is zero.
class BitReader {
  public:
    explicit BitReader(std::string_view letters); // fails at a letter that is none of the alphabet
    std::uint64_t bits(int count);
    bool flag() { return bits(1) != 0; }
    std::uint64_t count();
    double number();
    std::string text(std::size_t longest);
    bool failed() const { return failed_; }

  private:
    std::vector<bool> bits_;
    std::size_t at_ = 0;
    bool failed_ = false;
};

} // namespace counterpull
