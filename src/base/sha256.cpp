// SPDX-License-Identifier: MIT
#include "base/sha256.hpp"

#include "base/expects.hpp"

#include <openssl/evp.h>

namespace harpkeep {

struct Sha256::Context {
    std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> state{EVP_MD_CTX_new(), &EVP_MD_CTX_free};

    void begin()
    {
        const bool ready = state != nullptr && EVP_DigestInit_ex(state.get(), EVP_sha256(), nullptr) == 1;
        HARPKEEP_EXPECTS(ready);
    }
};

Sha256::Sha256() : context_(std::make_unique<Context>())
{
    context_->begin();
}
Sha256::Sha256(Sha256&&) noexcept = default;
Sha256& Sha256::operator=(Sha256&&) noexcept = default;
Sha256::~Sha256() = default;

void Sha256::update(std::span<const std::uint8_t> bytes)
{
    const bool taken = EVP_DigestUpdate(context_->state.get(), bytes.data(), bytes.size()) == 1;
    HARPKEEP_EXPECTS(taken);
}

Sha256Hash Sha256::finish()
{
    Sha256Hash hash{};
    const bool finished = EVP_DigestFinal_ex(context_->state.get(), hash.data(), nullptr) == 1;
    HARPKEEP_EXPECTS(finished);
    context_->begin();
    return hash;
}

Sha256Hash sha256_of(std::span<const std::uint8_t> bytes)
{
    Sha256 hasher;
    hasher.update(bytes);
    return hasher.finish();
}

std::string to_hex(const Sha256Hash& hash)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : hash) {
        text += digits[byte >> 4U];
        text += digits[byte & 0x0FU];
    }
    return text;
}

std::optional<Sha256Hash> sha256_from_hex(std::string_view text)
{
    Sha256Hash hash{};
    if (text.size() != 2 * hash.size()) return std::nullopt;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char digit = text[i];
        unsigned value = 0;
        if (digit >= '0' && digit <= '9')
            value = static_cast<unsigned>(digit - '0');
        else if (digit >= 'a' && digit <= 'f')
            value = static_cast<unsigned>(digit - 'a') + 10;
        else if (digit >= 'A' && digit <= 'F')
            value = static_cast<unsigned>(digit - 'A') + 10;
        else
            return std::nullopt;
        hash[i / 2] = static_cast<std::uint8_t>(hash[i / 2] << 4U | value);
    }
    return hash;
}

} // namespace harpkeep
