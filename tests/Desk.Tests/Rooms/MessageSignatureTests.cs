using System.Text;
using Coldpeel.Desk.Rooms;

namespace Coldpeel.Desk.Tests.Rooms;

/// <summary>Signed messages against the worked example of the standard.</summary>
public sealed class MessageSignatureTests
{
    // RFC 9421, appendix B.1.5, "test-shared-secret".
    private const string Secret =
        "uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==";

    [Fact]
    public void A_message_is_signed_as_the_standard_signs_its_example()
    {
        // RFC 9421, appendix B.2.5, "Signing a Request Using hmac-sha256".
        string[] names = ["date", "@authority", "content-type"];
        string[] values = ["Tue, 20 Apr 2021 02:07:55 GMT", "example.com", "application/json"];
        var parameters = MessageSignature.Parameters(
            names,
            DateTimeOffset.FromUnixTimeSeconds(1618884473),
            "test-shared-secret"
        );
        Assert.Equal(
            """("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret" """.TrimEnd(),
            parameters
        );
        Assert.Equal(
            "pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=",
            MessageSignature.Sign(
                MessageSignature.Base(names.Zip(values), parameters),
                Convert.FromBase64String(Secret)
            )
        );
    }

    [Fact]
    public void The_digest_of_a_body_is_that_of_the_standard()
    {
        // RFC 9530, appendix B.1: {"hello": "world"} with a line feed behind it.
        Assert.Equal(
            "sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:",
            MessageSignature.Digest(Encoding.ASCII.GetBytes("{\"hello\": \"world\"}\n"))
        );
    }
}
