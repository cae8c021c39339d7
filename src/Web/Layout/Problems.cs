using System.Text.Json;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Refusals as other programs read them: RFC 9457, "Problem Details for HTTP APIs".</summary>
internal static class Problems
{
    private const string Type = "application/problem+json";

    /// <summary>A refusal with its status.</summary>
    /// <param name="status">The status.</param>
    /// <param name="title">What is wrong in a word or two, the same for every refusal of its kind.</param>
    /// <param name="detail">The sentence.</param>
    public static IResult Of(int status, string title, string detail) =>
        Results.Text(
            JsonSerializer.Serialize(
                new
                {
                    title,
                    status,
                    detail,
                }
            ),
            Type,
            statusCode: status
        );

    /// <summary>The same of a fault.</summary>
    public static IResult Of(int status, string title, Fault fault) => Of(status, title, fault.ToString());
}
