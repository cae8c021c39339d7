using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk;

/// <summary>One file that appears whole or not at all.</summary>
public static class OneFile
{
    /// <summary>Writes beside, then moves in place.</summary>
    public static Fault? Put(string path, byte[] content)
    {
        var beside = $"{path}.making-{Environment.ProcessId}";
        try
        {
            File.WriteAllBytes(beside, content);
            File.Move(beside, path, overwrite: true);
            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return new Fault(
                path,
                $"cannot be written ({refused.Message.ReplaceLineEndings(" ").Replace(beside, path, StringComparison.Ordinal).TrimEnd('.')}).",
                "Name a file in a folder that is there and yours."
            );
        }
        finally
        {
            if (File.Exists(beside))
            {
                File.Delete(beside);
            }
        }
    }
}
