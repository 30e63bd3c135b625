// SPDX-License-Identifier: MIT
#include "audio/channel_choice.hpp"
#include "audio/signal_condition.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

using namespace harpkeep;
using Catch::Matchers::Contains;

namespace {

constexpr double rate = 48000.0;

/// A pluck every second over a little noise.
double harp(double t)
{
    return 0.3 * std::exp(-4.0 * std::fmod(t, 1.0)) * std::sin(2.0 * std::numbers::pi * 262.0 * t);
}

struct Noise {
    std::minstd_rand engine{1};
    double operator()(double rms) // uniform: its rms is its half-width over sqrt 3
    {
        return rms * std::sqrt(3.0) * (2.0 * static_cast<double>(engine() - 1) / 2147483645.0 - 1.0);
    }
};

ChannelSurvey survey_of(const std::vector<std::function<double(double)>>& channels, double duration_s = 10.0)
{
    ChannelSurvey survey(static_cast<int>(channels.size()), rate);
    std::vector<float> frame(channels.size());
    for (std::size_t n = 0; n < static_cast<std::size_t>(duration_s * rate); ++n) {
        for (std::size_t c = 0; c < channels.size(); ++c)
            frame[c] = static_cast<float>(channels[c](static_cast<double>(n) / rate));
        survey(frame);
    }
    return survey;
}

} // namespace

TEST_CASE("choose_channels: a dead channel is left out", "[audio]")
{
    Noise noise;
    const auto live = [&](double t) { return harp(t) + noise(1e-3); };
    const auto dead = [](double) { return 0.0; };
    CHECK(choose_channels(survey_of({live, dead})).weights == std::vector{1.0, 0.0});
    const auto choice = choose_channels(survey_of({dead, live}));
    CHECK(choice.weights == std::vector{0.0, 1.0});
    CHECK_THAT(choice.reason, Contains("right channel") && Contains("silent"));
    const auto offset = [](double) { return 0.02; }; // a cable that only brings an offset is dead as well
    CHECK(choose_channels(survey_of({offset, live})).weights == std::vector{0.0, 1.0});
}

TEST_CASE("choose_channels: channels in antiphase are never added up", "[audio]")
{
    Noise noise;
    const auto left = [&](double t) { return harp(t) + noise(1e-3); };
    const auto inverted = [&](double t) { return -harp(t) + noise(1e-3); };
    const auto late = [&](double t) { return -harp(t - 0.0011) + noise(1e-3); }; // 1.1 ms
    CHECK(choose_channels(survey_of({left, inverted})).weights == std::vector{1.0, 0.0});
    CHECK(choose_channels(survey_of({left, late})).weights == std::vector{1.0, 0.0});
}

TEST_CASE("choose_channels: the same sound in two channels gives their mean", "[audio]")
{
    Noise noise;
    const auto one = [&](double t) { return harp(t) + noise(1e-3); };
    CHECK(choose_channels(survey_of({one, one})).weights == std::vector{0.5, 0.5});
}

TEST_CASE("choose_channels: the channel that stands out best from its noise wins", "[audio]")
{
    Noise noise;
    const auto near = [&](double t) { return harp(t) + noise(1e-3); };
    const auto far = [&](double t) { return 0.2 * harp(t) + noise(1e-3); };
    const auto loud_but_noisy = [&](double t) { return 2.0 * harp(t) + noise(0.05); };
    CHECK(choose_channels(survey_of({far, near})).weights == std::vector{0.0, 1.0});
    CHECK(choose_channels(survey_of({loud_but_noisy, near, far})).weights == std::vector{0.0, 1.0, 0.0});
}

TEST_CASE("choose_channels: a clipped channel loses against one that is not", "[audio]")
{
    Noise noise;
    const auto clean = [&](double t) { return 0.3 * harp(t) + noise(1e-3); };
    const auto clipped = [&](double t) { return std::clamp(6.0 * (harp(t) + noise(1e-4)), -1.0, 1.0); };
    CHECK(choose_channels(survey_of({clipped, clean})).weights == std::vector{0.0, 1.0});
}

TEST_CASE("mix_down: takes what was chosen", "[audio]")
{
    const std::vector<float> interleaved{0.1F, 0.5F, 0.2F, 0.6F};
    std::vector<float> mono(2);
    mix_down(interleaved, {{0.0, 1.0}, ""}, mono);
    CHECK(mono == std::vector{0.5F, 0.6F});
    mix_down(interleaved, {{0.5, 0.5}, ""}, mono);
    CHECK(mono[0] == Approx(0.3));
}

TEST_CASE("ChannelSurvey: the sizes of the pieces do not matter", "[audio][property]")
{
    Noise noise;
    std::vector<float> samples;
    for (int n = 0; n < 96000; ++n) samples.push_back(static_cast<float>(harp(n / rate) + noise(1e-3)));
    ChannelSurvey whole(2, rate), pieces(2, rate);
    whole(samples);
    for (std::size_t at = 0; at < samples.size(); at += 1000) pieces(std::span(samples).subspan(at, 1000));
    CHECK(whole.channels()[1].block_rms == pieces.channels()[1].block_rms);
    CHECK(whole.channels()[1].sum_of_squares == pieces.channels()[1].sum_of_squares);
    CHECK(whole.correlation(0, 1) == pieces.correlation(0, 1));
    whole.reset();
    whole(samples);
    CHECK(whole.channels()[0].sum == pieces.channels()[0].sum);
}

TEST_CASE("judge_signal: sees clipping at full scale and below it", "[audio]")
{
    Noise noise;
    const double level = GENERATE(1.0, 0.5); // turned down after it was overdriven
    const auto clipped = [&](double t) {
        return level * std::clamp(6.0 * (harp(t) + noise(1e-3)), -1.0, 1.0);
    };
    const auto survey = survey_of({clipped});
    const auto condition = judge_signal(survey, choose_channels(survey), rate);
    CHECK(condition.clipped_share > 0.01);
    REQUIRE(condition.advice.size() == 1);
    CHECK_THAT(condition.advice[0], Contains("overdriven"));
}

TEST_CASE("judge_signal: a good recording draws no advice", "[audio]")
{
    Noise noise;
    const auto good = [&](double t) { return std::round(32768.0 * (2.0 * harp(t) + noise(1e-4))) / 32768.0; };
    const auto survey = survey_of({good});
    const auto condition = judge_signal(survey, choose_channels(survey), rate);
    CHECK(condition.clipped_share == 0.0);
    CHECK_FALSE(condition.silent);
    CHECK(condition.peak_dbfs ==
          Approx(20.0 * std::log10(0.6)).margin(0.1)); // the decay to the first crest, noise
    CHECK(condition.advice.empty());
}

TEST_CASE("judge_signal: offset, silence and telephone rates are told with what to do", "[audio]")
{
    Noise noise;
    const auto offset = survey_of({[&](double t) { return harp(t) + 0.05; }});
    const auto with_offset = judge_signal(offset, choose_channels(offset), rate);
    CHECK(with_offset.dc_offset == Approx(0.05).margin(1e-3)); // the mean of the tone itself
    CHECK_THAT(with_offset.advice.at(0), Contains("constant offset of 5.0 %"));

    const auto hiss = survey_of({[&](double) { return noise(1e-5); }});
    const auto silent = judge_signal(hiss, choose_channels(hiss), rate);
    CHECK(silent.silent);
    CHECK_THAT(silent.advice.at(0), Contains("is silent") && Contains("microphone"));

    const auto phone = survey_of({[&](double t) { return harp(t) + noise(1e-3); }});
    const auto narrow = judge_signal(phone, choose_channels(phone), 8000.0);
    CHECK(narrow.highest_measurable_hz == 3400.0);
    CHECK_THAT(narrow.advice.at(0), Contains("strings above 3400 Hz cannot be measured"));
}
