// The table of how well strings are heard (DEVELOPERS.md): hearing_table [CLIPS] [FIRST_SEED] [FOLDER].
// Odd seeds are those that the hearing was not tuned on; in the folder the recorded notes are made.
#include "tests/hearing/accuracy.h"
#include "tests/hearing/real_sounds.h"

#include <cstdio>
#include <cstdlib>

using namespace counterpull::test;

namespace {

void row(const char* name, const Conditions& conditions, std::uint64_t first, int clips) {
    const Tally result = tally(conditions, first, clips);
    std::printf("%-44s %7.2f %7.2f %7.2f %6d %6.1f%% %6.1f%% %8.1f\n", name, result.median(),
                result.ninety_five(), result.worst(), result.wrong, 100.0 * result.heard_share(),
                100.0 * result.within_two_sigma, result.milliseconds);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    const int clips = argc > 1 ? std::atoi(argv[1]) : 200;
    const std::uint64_t first = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
    std::printf("%-44s %7s %7s %7s %6s %7s %7s %8s\n", "cents off", "median", "95 %", "worst", "wrong",
                "heard", "2 sigma", "ms");
    for (const bool strum : {false, true})
        for (const bool phone : {false, true})
            for (const double snr : {40.0, 30.0, 20.0}) {
                char name[80];
                std::snprintf(name, sizeof name, "%s, %s, %.0f dB", strum ? "strum" : "one string",
                              phone ? "phone" : "direct", snr);
                row(name, {.strum = strum, .off_cents = strum ? 60.0 : 150.0, .phone = phone, .snr_db = snr},
                    first, clips);
            }
    row("one string, hum, 30 dB", {.snr_db = 30.0, .hum = true}, first, clips);
    row("strum, hum, 30 dB", {.strum = true, .off_cents = 60.0, .snr_db = 30.0, .hum = true}, first, clips);
    row("strum, told where, 200 cents off, 30 dB",
        {.strum = true, .off_cents = 200.0, .snr_db = 30.0, .told = true}, first, clips);
    row("one string, two seconds, 30 dB", {.snr_db = 30.0, .lasts_s = 2.0}, first, clips);
    row("strum, two seconds, 30 dB", {.strum = true, .off_cents = 60.0, .snr_db = 30.0, .lasts_s = 2.0},
        first, clips);
    const std::string folder = argc > 3 ? argv[3] : ".";
    for (const int program : {25, 26, 27, 28}) {
        const std::vector<RealNote> notes = real_notes(program, keys_of_guitars(), folder);
        if (notes.empty()) {
            std::printf("no recorded notes: fluidsynth and fluid-soundfont-gm are not installed\n");
            break;
        }
        for (const bool strum : {false, true})
            for (const bool phone : {false, true}) {
                char name[80];
                std::snprintf(name, sizeof name, "%s, %s, 30 dB, recorded (%d)",
                              strum ? "strum" : "one string", phone ? "phone" : "direct", program);
                row(name,
                    {.strum = strum,
                     .off_cents = strum ? 60.0 : 150.0,
                     .phone = phone,
                     .snr_db = 30.0,
                     .real = &notes},
                    first, clips);
            }
    }
    const std::pair<const char*, NoString> none[] = {
        {"silence", NoString::silence}, {"noise", NoString::noise}, {"speech", NoString::speech},
        {"clap", NoString::clap},       {"car", NoString::car},     {"hum", NoString::hum}};
    for (const auto& [name, what] : none)
        std::printf("%-44s something heard in %d of %d\n", name, heard_in(what, first, clips), clips);
}
