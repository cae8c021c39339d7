namespace Coldpeel.Desk.Orders;

/// <summary>A file of a kept job, with its content.</summary>
/// <param name="Name">Its name.</param>
/// <param name="ContentType">Its media type.</param>
/// <param name="Content">Its bytes.</param>
public sealed record FetchedFile(string Name, string ContentType, byte[] Content);

/// <summary>Fetches a file of a kept job. Names are looked up in the store and never become a path.</summary>
public sealed class FetchFile(OpenedWorkshop workshop)
{
    /// <summary>The file; null when the job has none of that name.</summary>
    public FetchedFile? Run(string job, string name) =>
        workshop.Store.Content(job, name) is { } content ? new(name, ContentType(name), content) : null;

    /// <summary>The paper (proof or hand-over slip) that a step of the job was taken on, as it was then; null when there was none of that hash.</summary>
    public FetchedFile? Proof(string job, string hash) =>
        workshop.Store.Proof(job, hash) is { } content ? new("paper.pdf", "application/pdf", content) : null;

    // What somebody brought is kept as it came, and no browser is to open it as if it were ours.
    private static string ContentType(string name) =>
        OrderSource.IsPart(name)
            ? "application/octet-stream"
            : Path.GetExtension(name) switch
            {
                ".pdf" => "application/pdf",
                ".json" => "application/json; charset=utf-8",
                ".png" => "image/png",
                ".svg" => "image/svg+xml",
                _ => "application/octet-stream",
            };
}
