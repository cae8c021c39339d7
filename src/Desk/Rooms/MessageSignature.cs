using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Coldpeel.Desk.Rooms;

/// <summary>Signs an HTTP message with a shared secret.</summary>
/// <remarks>RFC 9421, "HTTP Message Signatures": the base is composed as in section 2.5, signed by HMAC with SHA-256 as in
/// 3.3.3, and told in two fields as in section 4; the digest of the body is RFC 9530, section 2.</remarks>
public static class MessageSignature
{
    /// <summary>The parameters as they stand in <c>Signature-Input</c> behind the label.</summary>
    /// <param name="components">Names of the components, in order.</param>
    /// <param name="created">When it is signed.</param>
    /// <param name="keyId">Name of the key.</param>
    public static string Parameters(IEnumerable<string> components, DateTimeOffset created, string keyId)
    {
        ArgumentNullException.ThrowIfNull(components);
        var names = string.Join(' ', components.Select(c => $"\"{c}\""));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"({names});created={created.ToUnixTimeSeconds()};keyid=\"{keyId}\""
        );
    }

    /// <summary>What is signed: a line for each component and one for the parameters, without a line end behind the last.</summary>
    /// <param name="components">Name and value of each, in the order of the parameters.</param>
    /// <param name="parameters">As <see cref="Parameters"/> gives them.</param>
    public static string Base(IEnumerable<(string Name, string Value)> components, string parameters)
    {
        ArgumentNullException.ThrowIfNull(components);
        var lines = components.Select(c => $"\"{c.Name}\": {c.Value}").Append($"\"@signature-params\": {parameters}");
        return string.Join('\n', lines);
    }

    /// <summary>The signature in base64.</summary>
    /// <param name="signatureBase">As <see cref="Base"/> gives it.</param>
    /// <param name="secret">The shared secret.</param>
    public static string Sign(string signatureBase, ReadOnlySpan<byte> secret) =>
        Convert.ToBase64String(HMACSHA256.HashData(secret, Encoding.ASCII.GetBytes(signatureBase)));

    /// <summary>The value of <c>Content-Digest</c>.</summary>
    public static string Digest(ReadOnlySpan<byte> body) =>
        $"sha-256=:{Convert.ToBase64String(SHA256.HashData(body))}:";
}
