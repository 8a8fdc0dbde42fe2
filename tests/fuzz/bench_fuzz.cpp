// The job at the bench on set-ups that are accepted (report_fuzz.cpp), with answers that the bytes make: well
// or ill fitting, near or far. Each is taken or refused in words; what it leaves is a set-up like any
// other.
#include "engine/advice/bench.h"
#include "engine/advice/report.h"
#include "engine/document/link.h"
#include "engine/say/bench_json.h"
#include "engine/say/refusal.h"
#include "tests/reference/altered_setup.h"

#include <algorithm>
#include <cstdlib>

using namespace counterpull;

namespace {

constexpr int most_steps = 8;
constexpr std::size_t altering = 24; // bytes; the rest answers

// Answers, byte by byte; nothing more is said where they end.
class Player {
  public:
    explicit Player(std::span<const unsigned char> bytes) : bytes_(bytes) {}
    bool has_more() const { return !bytes_.empty(); }
    Answer answer(std::size_t strings) {
        Answer said;
        const unsigned what = byte();
        if (what & 1)
            said.tail_mm = around(6.0);
        if (what & 2)
            said.cents.emplace(strings);
        for (std::size_t i = 0; said.cents && i < strings; ++i)
            if (byte() & 3)
                (*said.cents)[i] = around(200.0);
        said.in_tune = what & 4;
        if (what & 8)
            said.turned = {around(4.0), around(4.0)};
        if ((what & 48) == 48)
            said.happened = static_cast<Mishap>(byte() % 6);
        if (what & 64)
            said.string = byte() % 14;
        if (what & 128)
            said.hook = byte() % 8;
        return said;
    }

  private:
    unsigned byte() {
        if (bytes_.empty())
            return 0;
        const unsigned first = bytes_.front();
        bytes_ = bytes_.subspan(1);
        return first;
    }
    // Mostly within so much of nothing, seldom far beyond.
    double around(double reach) {
        const unsigned value = byte();
        return (static_cast<double>(value) / 127.5 - 1.0) * (value == 255 ? 1e6 : reach);
    }
    std::span<const unsigned char> bytes_;
};

void hold(bool held) {
    if (!held)
        std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const std::span<const unsigned char> bytes(data, size);
    const SetupRead read =
        read_setup(reference::altered_example(bytes.first(std::min(size, altering))).dump());
    if (!read.setup)
        return 0;
    Setup setup = *read.setup;
    Player player(bytes.subspan(std::min(size, altering)));
    for (int step = 0; step < most_steps && player.has_more(); ++step) {
        const ReportResult result = report(setup);
        if (!result.report)
            return 0;
        const Bench due = bench(*result.report);
        hold(due.number >= 1 && due.of >= due.number);
        bench_json(*result.report, due,
                   english()); // a number that is none is asserted against (json_text.cpp)
        hold(!bench_text(*result.report, due, english()).empty());
        const Answered after = answered(*result.report, player.answer(setup.next.tuning.size()));
        hold(after.setup.has_value() == after.problems.none());
        if (!after.setup) {
            hold(!first_message(after.problems, english())
                      .empty()); // of no place where no step is due any more
            continue;
        }
        const SetupRead again = read_setup(write_setup(*after.setup));
        hold(again.setup && *again.setup == *after.setup);
        const SetupRead linked = open_link(link_of(*after.setup));
        hold(linked.setup && *linked.setup == *after.setup);
        setup = *after.setup;
    }
    return 0;
}
